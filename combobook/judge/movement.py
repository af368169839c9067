"""Movement: will it reach the shelf? M1 to M3 of rules.md, section 2, and the figures that follow from them.

That two glazes can melt each other, and that a run seen upright is what counts, is common practice without a source;
the class limits and the run factor are the house's.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from combobook.cones import Cone, ConeRange
from combobook.entries import NOT_KNOWN, OFF_THE_TILE, Flow, Glaze, Studio
from combobook.judge.evidence import evidence
from combobook.judge.reasons import listed, reason
from combobook.judge.rows import Row
from combobook.judge.surface import Layering
from combobook.measures import Span, mm_down, mm_up
from combobook.problems import Place
from combobook.verdicts import EvidenceLevel, MoveClass, MovementVerdict, Reason, ToDo

STABLE, MOVES, RUNNY = MoveClass.STABLE, MoveClass.MOVES, MoveClass.RUNNY
FLOWS = {Flow.STABLE: STABLE, Flow.MOVES: MOVES, Flow.RUNNY: RUNNY}
CATCH_PLATE_OVER_MM = 10
"""House: run factor × worst run over this asks for a catch plate."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Alone:
    """A glaze with the rows of it alone: what M1 goes by."""

    glaze: Glaze
    rows: tuple[Row, ...]


def movement(layering: Layering, judged: tuple[int, ...] | None, alone: tuple[Alone, ...]) -> MovementVerdict:
    """Class, runs, margin, reach, catch plate. `judged`: the coats judged (None: any); `alone`: each layer's own rows.

    `to_do` follows from these figures only: `bench` makes it `NOT_ON_WALLS` where no form has room.
    """
    studio, one = layering.studio, layering.alone
    reasons = [found for each in alone for found in _m1(each, studio.cone.value)]
    untested = not one and not any(measures(row, studio.cone.value, judged) for row in layering.rows)
    if untested:
        reasons.append(_m2(layering, max(layer_class(each, studio.cone.value) for each in alone)))
    if not one:
        reasons += (_m3(row) for row in layering.rows if row.run is not None and row.run > STABLE)
    cls = max((_class(each) for each in reasons), default=STABLE)
    worst = worst_row(layering.rows)
    worst_run = worst.tile.ran.value if worst else None
    assert worst_run is None or isinstance(worst_run, Fraction)
    run_off = studio.run_factor.value * (worst_run or 0)
    margin = _margin(studio, run_off, one and cls is STABLE)
    reach = _reach(layering, cls, judged)
    off = any(row.run is not None and row.tile.ran.value is OFF_THE_TILE for row in layering.rows)
    measured = [row for row in layering.rows if row.fired and row.run is not None]
    to_do = _to_do(layering, off, reach, untested)
    return MovementVerdict(
        cls=cls,
        worst_run=worst_run,
        worst_tile=worst.tile if worst else None,
        off_the_tile=off,
        margin_mm=margin,
        reach_mm=reach,
        catch_plate=cls is RUNNY or untested or run_off > CATCH_PLATE_OVER_MM,
        untested_upright=untested,
        upright_tiles=len({row.mark for row in measured}),
        upright_firings=len({row.firing for row in measured}),
        to_do=to_do,
        to_do_mm=margin if to_do is ToDo.LEAVE else reach if to_do is ToDo.TOP_BAND else None,
        reasons=listed(reasons or _labels(alone)),
    )


def measures(row: Row, studio_cone: Cone, judged: tuple[int, ...] | None) -> bool:
    """Fired, upright, `ran` written, at most half a cone under the studio's, at least the judged coats of each."""
    if row.cone is None or row.run is None or row.cone < studio_cone.shifted(-1):
        return False
    return judged is None or all(has >= asked for has, asked in zip(row.coats, judged, strict=True))


def layer_class(alone: Alone, studio_cone: Cone) -> MoveClass:
    """M1: the label's flow, raised by upright runs of that glaze alone; not known is runny until a tile measures it."""
    return max((_class(found) for found in _m1(alone, studio_cone)), default=STABLE)


def worst_row(rows: Iterable[Row]) -> Row | None:
    """The upright row with the longest run, at any coats, clay and cone, fired or not; of two as long the first."""
    worst: tuple[Fraction, Row] | None = None
    for row in rows:
        ran = row.tile.ran.value
        if row.run is not None and isinstance(ran, Fraction) and (worst is None or ran > worst[0]):
            worst = (ran, row)
    return worst[1] if worst else None


def shares_no_cone(layers: tuple[Glaze, ...]) -> bool:
    """Two known label ranges have no cone in common; False where one is not known."""
    ranges = [glaze.cone.value for glaze in layers if isinstance(glaze.cone.value, ConeRange)]
    return len(ranges) == 2 and not ranges[0].shares_a_cone_with(ranges[1])


def no_wall(layering: Layering) -> bool:
    """P7: no place on any wall, inside or out: the base is rim only, or the labels share no cone."""
    return not layering.alone and (layering.layers[0].rim_only or shares_no_cone(layering.layers))


def _to_do(layering: Layering, ran_off: bool, reach: int | None, untested: bool) -> ToDo:
    if ran_off or no_wall(layering):
        return ToDo.NOT_ON_WALLS
    if reach is not None:
        return ToDo.TOP_BAND
    return ToDo.TOP_THIRD if untested else ToDo.LEAVE


def _margin(studio: Studio, run_off: Fraction, one_stable_glaze: bool) -> int:
    foot = studio.foot_margin.value
    return mm_up(max(run_off, foot.low if one_stable_glaze else foot.high))


def _reach(layering: Layering, cls: MoveClass, judged: tuple[int, ...] | None) -> int | None:
    """How far down from the rim the top may go, the smallest that applies; None: to the margin."""
    own = rim_reach(layering.layers[-1], layering.studio)
    ends = [] if own is None else [own]
    if cls is RUNNY and not layering.alone and not _steady_upright(layering, judged):
        ends.append(mm_down(layering.studio.rim_band.value.high))
    return min(ends, default=None)


def rim_reach(top: Glaze, studio: Studio) -> int | None:
    """How far down a glaze goes that belongs on rims only: its own band's upper end, or the studio's; else None."""
    if not top.rim_only:
        return None
    own = top.rim_band.value
    return mm_down((own if isinstance(own, Span) else studio.rim_band.value).high)


def _steady_upright(layering: Layering, judged: tuple[int, ...] | None) -> bool:
    """The measuring tiles of exactly the judged coats, by themselves, are steady; never where none are suggested."""
    if judged is None:
        return False
    cone = layering.studio.cone.value
    tiles = [row for row in layering.rows if row.coats == judged and measures(row, cone, judged)]
    return evidence(tiles).level is EvidenceLevel.STEADY


def _m1(alone: Alone, studio_cone: Cone) -> Iterator[Reason]:
    """A layer's own: its label's flow above stable, and each upright run of it alone above stable."""
    flow, name = alone.glaze.flow, alone.glaze.name.value
    if flow.value is NOT_KNOWN:
        if not any(measures(row, studio_cone, None) for row in alone.rows):
            yield _moves("M1", "flow_not_known", flow.at, RUNNY, glaze=name)
    elif FLOWS[flow.value] > STABLE:
        yield _moves("M1", f"flow_{flow.value.value}", flow.at, FLOWS[flow.value], glaze=name)
    for row in alone.rows:
        if row.run is not None and row.run > STABLE:
            yield _run("M1", "alone", row, row.run, glaze=name)


def _m2(layering: Layering, cls: MoveClass) -> Reason:
    raised = MoveClass(min(cls + 1, RUNNY))
    return _moves("M2", "untested_upright", layering.coats_place, raised)


def _m3(row: Row) -> Reason:
    assert row.run is not None
    return _run("M3", "layering", row, row.run)


def _run(rule: str, of: str, row: Row, cls: MoveClass, **facts: object) -> Reason:
    """A run seen on one upright tile; a forgotten firing is said."""
    ran = row.tile.ran
    fired = "" if row.fired else "_not_fired"
    if isinstance(ran.value, Fraction):
        return _moves(rule, f"ran_{of}{fired}", ran.at, cls, tile=row.mark, run_mm=ran.value, **facts)
    return _moves(rule, f"ran_off_{of}{fired}", ran.at, cls, tile=row.mark, **facts)


def _moves(rule: str, wording: str, place: Place, cls: MoveClass, **facts: object) -> Reason:
    return reason(rule, wording, place, RUNNY - cls, **facts)


def _class(found: Reason) -> MoveClass:
    return MoveClass(RUNNY - found.severity)


def _labels(alone: Iterable[Alone]) -> list[Reason]:
    """Where nothing applies: what each label says of its flow, or that tiles measured it."""
    return [
        _moves(
            "label",
            "flow_measured" if each.glaze.flow.value is NOT_KNOWN else "flow_stable",
            each.glaze.flow.at,
            STABLE,
            glaze=each.glaze.name.value,
        )
        for each in alone
    ]
