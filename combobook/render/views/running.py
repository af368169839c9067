"""What to do about running: the instruction, each figure in a sentence, what was seen, and why."""

from __future__ import annotations

from dataclasses import dataclass

from combobook.render import said
from combobook.render.our_kiln import refused, to_do, to_do_key, why_refused
from combobook.render.views.desk import Desk
from combobook.render.views.pieces import Signed, Why, sign, upper_first, whys
from combobook.verdicts import GlazeVerdict, LayeringVerdict, ToDo
from combobook.wording import MOVE_KEYS, inch_fraction, number

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
    """The instruction first; then what it means on a piece, what was seen, and why.

    Of what goes into no kiln of ours only that, what was seen, and why.
    """
    moves, words = verdict.movement, desk.words
    key, catch = MOVE_KEYS[moves.cls], catch_words(desk, verdict)
    return RunningView(
        sign=to_do_sign(desk, verdict),
        under=under_words(desk, verdict),
        catch=Signed(key="catch", mark=sign("catch-plate"), words=catch) if catch else None,
        runs=said.runs(verdict, words),
        steps=steps(desk, verdict),
        counts_as=desk.text(
            "running.counts_as",
            word=words(f"movement.{key}.word").lower(),
            means=words(f"movement.{key}.means"),
            limits=words("movement.house_limits"),
        ),
        whys=whys(moves.reasons, desk),
    )


def to_do_sign(desk: Desk, verdict: Verdict) -> Signed:
    """The one instruction with its mark."""
    key, mark = to_do_key(verdict, desk.book)
    return Signed(key=key, mark=sign(mark), words=to_do(verdict, desk.book, desk.words))


def steps(desk: Desk, verdict: Verdict) -> tuple[str, ...]:
    """What to do, step by step; of what goes into no kiln of ours, that."""
    glaze = verdict.glaze.name.value if isinstance(verdict, GlazeVerdict) else verdict.top.name.value
    out = tuple(why_refused(verdict, desk.book, desk.words))
    return out or said.steps(verdict.movement, glaze, desk.words)


def catch_words(desk: Desk, verdict: Verdict) -> str:
    """That it stands on a catch plate; empty where it needs none, or goes into no kiln of ours."""
    if refused(verdict, desk.book) or not verdict.movement.catch_plate:
        return ""
    return upper_first(desk.words("to_do.catch_plate"))


def under_words(desk: Desk, verdict: Verdict) -> str:
    """What the instruction's figure is, or why it goes into no kiln of ours."""
    moves = verdict.movement
    if refused(verdict, desk.book):
        return desk.words("other_kiln.under")
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
