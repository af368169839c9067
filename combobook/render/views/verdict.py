"""The head of a glaze's or layering's page: the verdict with its reasons, what to do, how far to trust it."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from combobook.book import TestTile
from combobook.render.views.desk import Desk
from combobook.render.views.pieces import Signed, Way, Why, sign, upper_first, whys
from combobook.verdicts import (
    Evidence,
    EvidenceLevel,
    FoodVerdict,
    GlazeVerdict,
    LayeringVerdict,
    MovementVerdict,
    ToDo,
)
from combobook.wording import EVIDENCE_KEYS, MOVE_KEYS, food_in_full, food_key, food_lines, inch_fraction, number, to_do_words

Verdict = GlazeVerdict | LayeringVerdict
_FIRST = 3
"""Reasons shown at once; the rest unfold."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FoodView:
    """The verdict on food in its frame."""

    sign: Signed
    judged: str
    """For which coats and cone, and what the house makes of it."""
    clays: str
    """Which clay decides, or empty."""
    piece: str
    whys: tuple[Why, ...]
    more: tuple[Why, ...]
    more_words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RunningView:
    """What to do about running: the instruction, then every figure in a sentence."""

    sign: Signed
    under: str
    """What the instruction's figure is."""
    catch: Signed | None
    runs: str
    steps: tuple[str, ...]
    counts_as: str
    whys: tuple[Why, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TrustView:
    """How far to trust it, as counts."""

    sign: Signed
    counts: tuple[str, ...]
    means: str
    looked: str
    differ: tuple[DifferView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DifferView:
    """Tiles of the same coats and clay that say different things: each said, never an average."""

    about: str
    sides: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LabView:
    """A lab report measured against its limits."""

    name: str
    found: str
    readings: tuple[str, ...]
    at: str
    notes: Markup


def food_sign(desk: Desk, food: FoodVerdict, one: bool, *, short: bool = False) -> Signed:
    """The food mark with its words in full, or (`short`) as on a card."""
    key = food_key(food, desk.never)
    if short:
        words = " ".join(food_lines(food, desk.never, desk.words, one))
    else:
        words = food_in_full(food, desk.never, desk.words, one)
    return Signed(key=key, mark=sign(desk.words(f"food.{key}.mark")), words=words)


def food_view(desk: Desk, verdict: Verdict, coats: str) -> FoodView:
    """The headline verdict, for the coats in words and the studio's cone."""
    one = isinstance(verdict, GlazeVerdict)
    every = whys(verdict.food.reasons, desk)
    cone = desk.book.studio.cone.value
    judged = desk.text("food.judged" if coats else "food.judged_any", coats=coats, cone=cone)
    ware = "" if desk.never else desk.text("food.ware_yes" if verdict.food.food_ware else "food.ware_no")
    clays = () if isinstance(verdict, GlazeVerdict) else verdict.deciding_clays
    more = every[_FIRST:] if len(every) > _FIRST + 1 else ()
    return FoodView(
        sign=food_sign(desk, verdict.food, one),
        judged=f"{judged} {ware}".strip(),
        clays=desk.text("food.deciding", clays=desk.words.listed([c.name.value for c in clays])) if clays else "",
        piece=desk.words("food.piece"),
        whys=every[: len(every) - len(more)],
        more=more,
        more_words=desk.text("food.more", n=len(more)) if more else "",
    )


def running_view(desk: Desk, verdict: Verdict) -> RunningView:
    """The instruction first; then what it means on a piece, what was seen, and why."""
    moves = verdict.movement
    key = MOVE_KEYS[moves.cls]
    glaze = verdict.glaze.name.value if isinstance(verdict, GlazeVerdict) else verdict.top.name.value
    catch = desk.words("to_do.catch_plate")
    words = desk.words
    return RunningView(
        sign=Signed(key=key, mark=sign(key), words=to_do_words(moves, words)),
        under=_under(desk, moves),
        catch=Signed(key="catch", mark=sign("catch-plate"), words=upper_first(catch)) if moves.catch_plate else None,
        runs=_runs(desk, verdict),
        steps=_steps(desk, moves, glaze),
        counts_as=desk.text(
            "running.counts_as",
            word=words(f"movement.{key}.word").lower(),
            means=words(f"movement.{key}.means"),
            limits=words("movement.house_limits"),
        ),
        whys=whys(moves.reasons, desk),
    )


def _under(desk: Desk, moves: MovementVerdict) -> str:
    if moves.to_do is ToDo.NOT_ON_WALLS:
        return desk.text("running.under_not_on_walls")
    if moves.to_do is ToDo.TOP_THIRD:
        return desk.text("running.under_third", margin_up_mm=moves.margin_mm)
    mm = moves.to_do_mm if moves.to_do_mm is not None else moves.margin_mm
    key = "leave" if moves.to_do is ToDo.LEAVE else "band"
    other = _other_unit(desk, mm, "up" if key == "leave" else "down")
    return desk.text(f"running.under_{key}", other=other, margin_up_mm=moves.margin_mm)


def _other_unit(desk: Desk, mm: int, rounding: str) -> str:
    """The figure in the unit that the instruction does not use."""
    first = desk.words.units.value == "mm"
    return f"{inch_fraction(mm, rounding)} in" if first else f"{number(mm)} mm"


def _runs(desk: Desk, verdict: Verdict) -> str:
    """What upright tiles did, as counts: worst run, no run in so many, or that nobody measured."""
    moves, words = verdict.movement, desk.words
    counts = {
        "tiles": words.counted("tiles", moves.upright_tiles),
        "firings": words.counted("firings", moves.upright_firings),
    }
    said = []
    if moves.off_the_tile:
        gone = [t.tile.value for t in verdict.tiles if t.upright and words.fact("", t.ran.value) == "off the tile"]
        said.append(desk.text("running.off", tiles=words.listed(list(dict.fromkeys(gone)))))
    if moves.worst_run is not None and moves.worst_run > 0:
        tile = moves.worst_tile.tile.value if moves.worst_tile is not None else ""
        said.append(desk.text("running.worst", run_mm=moves.worst_run, tile=tile, **counts))
    elif moves.worst_run is not None:
        said.append(desk.text("running.no_run", **counts))
    elif not moves.off_the_tile:
        said.append(desk.text("running.not_measured"))
    return " ".join(said)


def _steps(desk: Desk, moves: MovementVerdict, glaze: str) -> tuple[str, ...]:
    steps = []
    if moves.to_do is ToDo.NOT_ON_WALLS:
        steps.append(desk.text("running.step_not_on_walls"))
    steps.append(desk.text("running.step_margin", margin_up_mm=moves.margin_mm))
    if moves.reach_mm is not None:
        steps.append(desk.text("running.step_reach", glaze=glaze, reach_down_mm=moves.reach_mm))
    if moves.untested_upright:
        steps.append(desk.text("running.step_third", glaze=glaze))
    if moves.catch_plate:
        steps.append(desk.text("running.step_catch"))
    return tuple(steps)


def trust_view(desk: Desk, evidence: Evidence) -> TrustView:
    """The level with what it means, tiles and firings counted, and what disagrees."""
    key, words = EVIDENCE_KEYS[evidence.level], desk.words
    untested = evidence.level is EvidenceLevel.UNTESTED
    counts = (words.counted("tiles", evidence.tiles), words.counted("firings", evidence.firings))
    return TrustView(
        sign=Signed(key=key, mark=sign(key.replace("_", "-")), words=upper_first(words(f"evidence.{key}.short"))),
        counts=() if untested else counts,
        means=upper_first(words(f"evidence.{key}.means")) + ".",
        looked=_looked(desk, evidence),
        differ=tuple(
            DifferView(
                about=desk.text(f"trust.differ_{found.about}", clay=found.clay.name.value, coats=coats_said(desk, found.tiles[0])),
                sides=tuple(_side(desk, tile, found.about) for tile in found.tiles),
            )
            for found in evidence.disagreements
            if found.tiles
        ),
    )


def _looked(desk: Desk, evidence: Evidence) -> str:
    if evidence.level is EvidenceLevel.UNTESTED:
        return ""
    looked = desk.words.counted("tiles", evidence.looked_over)
    if not evidence.looked_over:
        return desk.text("trust.nobody_looked")
    if not evidence.faulty:
        return desk.text("trust.no_fault", looked=looked, firings=desk.words.counted("firings", evidence.firings_looked_over))
    return desk.text("trust.faults", n=evidence.faulty, looked=looked)


def _side(desk: Desk, tile: TestTile, about: str) -> str:
    fired = desk.words("tile.firing", firing=tile.firing.id) if tile.firing else desk.words("tile.not_fired")
    said = ran_words(desk, tile) if about == "running" else faults_words(desk, tile)
    return desk.text("trust.side", tile=tile.tile.value, fired=fired, said=said)


def coats_said(desk: Desk, tile: TestTile) -> str:
    """`2 coats Ferry Rust, then 1 Pond Lantern`."""
    first = desk.words.counted("coats", tile.base_coats.value)
    if tile.top is None or tile.top_coats is None:
        return desk.words("coats.alone", first=first, glaze=tile.base.name.value)
    return desk.words(
        "coats.layering", first=first, base=tile.base.name.value, n=tile.top_coats.value, top=tile.top.name.value
    )


def ran_words(desk: Desk, tile: TestTile) -> str:
    """How far a tile ran: a length, no run, off the tile, not measured."""
    ran = tile.ran.value
    if isinstance(ran, int) or hasattr(ran, "numerator"):
        return desk.words.length(ran) if ran else desk.text("tiles.no_run")
    return desk.text("tiles.off") if ran.value == "off the tile" else desk.text("tiles.not_measured")


def faults_words(desk: Desk, tile: TestTile) -> str:
    """The faults a tile shows, `none seen`, or that nobody looked."""
    faults = tile.faults.value
    if not isinstance(faults, tuple):
        return desk.text("tiles.nobody_looked")
    return desk.words.fact("", faults) if faults else desk.text("tiles.none_seen")


def lab_views(desk: Desk, verdict: Verdict, root: str) -> tuple[LabView, ...]:
    """Each report on these layers, what it read and what it says against its limits."""
    views = []
    for finding in verdict.findings:
        report = finding.report
        readings = tuple(
            desk.text(f"lab.{metal}", readings=", ".join(f"{'<' if r.below else ''}{number(r.amount)} {r.unit.replace('dm2', 'dm²')}" for r in written.value))
            for metal, written in (("lead", report.lead), ("cadmium", report.cadmium))
            if written.value
        )
        found = desk.words(f"lab.{finding.wording}", **dict(finding.facts))
        unverified = f" {desk.text('lab.unverified')}" if finding.unverified else ""
        views.append(
            LabView(
                name=desk.text("lab.name", ware=report.ware.value, limits=report.limits.value, surface=_lab_surface(desk, verdict, finding.report)),
                found=found + unverified,
                readings=readings,
                at=report.layers_place.at,
                notes=desk.prose(report.body, root, under=3),
            )
        )
    return tuple(views)


def _lab_surface(desk: Desk, verdict: Verdict, report: object) -> str:
    return ""


def ways(desk: Desk, pages: list[tuple[str, str]]) -> tuple[Way, ...]:
    """Links from their targets and words."""
    return tuple(Way(href=href, words=words) for href, words in pages)
