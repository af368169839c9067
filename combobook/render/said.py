"""Sentences about a verdict that pages and `why` both say, from the words alone: no page, no markup."""

from __future__ import annotations

from fractions import Fraction

from combobook.book import TestTile
from combobook.cones import ConeRange
from combobook.entries import OFF_THE_TILE, Unknown
from combobook.measures import CoatRange
from combobook.verdicts import (
    Band,
    Contrast,
    Disagreement,
    Evidence,
    EvidenceLevel,
    GlazeVerdict,
    LayeringVerdict,
    MovementVerdict,
    TileFire,
    ToDo,
)
from combobook.wording import EVIDENCE_KEYS, Words, upper_first

Verdict = GlazeVerdict | LayeringVerdict


def runs(verdict: Verdict, words: Words) -> str:
    """What upright tiles did, as counts: worst run, no run in so many, or that nobody measured."""
    moves = verdict.movement
    counts = {
        "tiles": words.counted("tiles", moves.upright_tiles),
        "firings": words.counted("firings", moves.upright_firings),
    }
    said = []
    if moves.off_the_tile:
        gone = [t.tile.value for t in verdict.tiles if t.upright and t.ran.value is OFF_THE_TILE]
        said.append(words("site.running.off", tiles=words.listed(list(dict.fromkeys(gone)))))
    if moves.worst_run is not None and moves.worst_run > 0:
        tile = moves.worst_tile.tile.value if moves.worst_tile is not None else ""
        said.append(words("site.running.worst", run_mm=moves.worst_run, tile=tile, **counts))
    elif moves.worst_run is not None:
        said.append(words("site.running.no_run", **counts))
    elif not moves.off_the_tile:
        said.append(words("site.running.not_measured"))
    return " ".join(said)


def steps(moves: MovementVerdict, glaze: str, words: Words) -> tuple[str, ...]:
    """What to do about running, step by step; `glaze` is the one on top."""
    off_walls = moves.to_do is ToDo.NOT_ON_WALLS  # Then how far down a wall it may go is no question.
    said = [words("site.running.step_not_on_walls")] if off_walls else []
    said.append(words("site.running.step_margin", margin_up_mm=moves.margin_mm))
    if moves.reach_mm is not None and not off_walls:
        said.append(words("site.running.step_reach", glaze=glaze, reach_down_mm=moves.reach_mm))
    if moves.untested_upright and not off_walls:
        key = "site.running.step_third" if moves.reach_mm is None else "site.running.step_third_too"
        said.append(words(key, glaze=glaze))
    if moves.catch_plate:
        said.append(words("site.running.step_catch"))
    return tuple(said)


def trust_means(evidence: Evidence, words: Words) -> str:
    """What the level of trust means, as a sentence."""
    one = evidence.level is EvidenceLevel.SEEN_ONCE and evidence.tiles == 1
    key = "seen_once.means_one" if one else f"{EVIDENCE_KEYS[evidence.level]}.means"
    return f"{upper_first(words(f'evidence.{key}'))}."


def looked_over(evidence: Evidence, words: Words) -> str:
    """How many tiles were looked over and how many showed faults; empty without a fired tile."""
    if evidence.level is EvidenceLevel.UNTESTED:
        return ""
    looked = words.counted("tiles", evidence.looked_over)
    if not evidence.looked_over:
        return words("site.trust.nobody_looked" if evidence.tiles > 1 else "site.trust.nobody_looked_one")
    if not evidence.faulty:
        firings = words.counted("firings", evidence.firings_looked_over)
        return words("site.trust.no_fault", looked=looked, firings=firings)
    return words("site.trust.faults", n=evidence.faulty, looked=looked)


def fired(fire: TileFire | None, words: Words) -> str:
    """The cone a tile reached, how we know, and whether that was hot or cool; or that it is not fired."""
    if fire is None:
        return words("tile.not_fired")
    known_by = {"witness": "reached", "furthest": "furthest", "controller": "controller"}[fire.known_by]
    cone = words(f"site.tiles.{known_by}", cone=fire.cone)
    return cone if fire.fired == "as meant" else f"{cone}, {words(f'site.tiles.fired_{fire.fired}')}"


def ran(tile: TestTile, words: Words) -> str:
    """How far a tile ran: a length, no run, off the tile, not measured."""
    how_far = tile.ran.value
    if isinstance(how_far, Fraction):
        return words.length(how_far) if how_far else words("site.tiles.no_run")
    return words("site.tiles.off" if how_far is OFF_THE_TILE else "site.tiles.not_measured")


def faults(tile: TestTile, words: Words) -> str:
    """The faults a tile shows, none seen, or that nobody looked."""
    seen = tile.faults.value
    if not isinstance(seen, tuple):
        return words("site.tiles.nobody_looked")
    return words.fact("", seen) if seen else words("site.tiles.none_seen")


def apart(found: Disagreement | Contrast, words: Words) -> str:
    """The names of the fields in which these tiles differ, or that nothing written down tells them apart."""
    if not found.differ:
        return words("site.differ.nothing")
    base, top = found.tiles[0].base, found.tiles[0].top
    names = {"base": base.name.value, "top": top.name.value if top is not None else ""}
    fields = [words(f"site.differ.fields.{name}", **names) for name in found.differ]
    return words("site.differ.apart", fields=words.listed(fields))


def cones(span: ConeRange | Unknown, words: Words) -> str:
    """`5 to 6`, one cone, or not known."""
    if isinstance(span, Unknown):
        return words("not_known")
    return str(span.low) if span.low == span.high else words("site.cone_range", low=span.low, high=span.high)


def label_coats(coats: CoatRange | Unknown, words: Words) -> str:
    """`2 to 3 coats`, or that nobody knows how many."""
    if isinstance(coats, Unknown):
        return words("site.glaze.coats_not_known")
    if coats.low == coats.high:
        return words.counted("coats", coats.low)
    return words("site.glaze.coats_range", low=coats.low, high=coats.high)


def outside(band: Band, words: Words) -> str:
    """Where the top may go outside on one form, measured down from the rim; or that it has no useful place."""
    if band.from_mm is None or band.to_mm is None:
        return words("site.places.outside_none")
    if band.from_mm == 0:
        return words("site.places.outside_from_rim", to_down_mm=band.to_mm)
    return words("site.places.outside", from_up_mm=band.from_mm, to_down_mm=band.to_mm)


def inside_of(band: Band, moves: MovementVerdict, words: Words) -> tuple[str, ...]:
    """Whether it may go inside one form; of what ran off an upright tile also that a wall inside is a wall too."""
    warned = off_walls(band, moves)
    return (inside(band, words), words("site.places.off_walls")) if warned else (inside(band, words),)


def off_walls(band: Band, moves: MovementVerdict) -> bool:
    """It may go inside, but ran off an upright tile, and this inside has a wall."""
    return bool(band.inside) and moves.off_the_tile and not is_open(band)


def is_open(band: Band) -> bool:
    """A plate: it is all inside, and is answered for nothing else."""
    return any(found.wording == "open" for found in band.none)


def inside(band: Band, words: Words) -> str:
    """Whether it may go inside one form."""
    if band.inside is None:
        return words("site.places.inside_none")
    if not band.inside:
        return words("site.places.inside_no")
    if band.inside_to_mm is not None:
        return words("site.places.inside_to", to_down_mm=band.inside_to_mm)
    return words("site.places.inside_yes")
