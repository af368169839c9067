"""What to do about running: the instruction, each figure in a sentence, what was seen, and why."""

from __future__ import annotations

from dataclasses import dataclass

from combobook.render import said
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
        under=under_words(desk, moves),
        catch=Signed(key="catch", mark=sign("catch-plate"), words=upper_first(catch)) if moves.catch_plate else None,
        runs=said.runs(verdict, words),
        steps=said.steps(moves, glaze, words),
        counts_as=desk.text(
            "running.counts_as",
            word=words(f"movement.{key}.word").lower(),
            means=words(f"movement.{key}.means"),
            limits=words("movement.house_limits"),
        ),
        whys=whys(moves.reasons, desk),
    )


def under_words(desk: Desk, moves: MovementVerdict) -> str:
    """What the instruction's figure is."""
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
