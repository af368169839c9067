"""What to do about running: the instruction, each figure in a sentence, what was seen, and why."""

from __future__ import annotations

from dataclasses import dataclass

from combobook.entries import OFF_THE_TILE
from combobook.render.views.desk import Desk
from combobook.render.views.pieces import Signed, Why, sign, upper_first, whys
from combobook.verdicts import GlazeVerdict, LayeringVerdict, MovementVerdict, ToDo
from combobook.wording import MOVE_KEYS, inch_fraction, number, to_do_words

Verdict = GlazeVerdict | LayeringVerdict


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
        gone = [t.tile.value for t in verdict.tiles if t.upright and t.ran.value is OFF_THE_TILE]
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
    off_walls = moves.to_do is ToDo.NOT_ON_WALLS  # Then how far down a wall it may go is no question.
    steps = [desk.text("running.step_not_on_walls")] if off_walls else []
    steps.append(desk.text("running.step_margin", margin_up_mm=moves.margin_mm))
    if moves.reach_mm is not None and not off_walls:
        steps.append(desk.text("running.step_reach", glaze=glaze, reach_down_mm=moves.reach_mm))
    if moves.untested_upright and not off_walls:
        steps.append(desk.text("running.step_third", glaze=glaze))
    if moves.catch_plate:
        steps.append(desk.text("running.step_catch"))
    return tuple(steps)
