"""What would change a verdict, as far as the rules themselves say so; nothing here is a promise."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from combobook.entries import NOT_KNOWN
from combobook.render.cautions import stops
from combobook.render.said import Verdict
from combobook.render.why.view import Asked
from combobook.verdicts import EvidenceLevel, FoodLevel, MoveClass, Reason
from combobook.wording import EVIDENCE_KEYS, Words

MEASURES_FROM_HALVES = -1
"""A tile measures running when it was fired no more than half a cone cooler than the studio's cone."""

SAME_ANSWER: Mapping[str, str] = {
    "label_no_alone": "label_no",
    "faults_only": "faults_many",
    "lab_exceeds_unverified": "lab_exceeds",
    "entry_says_why": "entry_says",
    "cone_not_the_labels": "cone_outside_label",
    "nothing_looked_over": "no_tile_within_labels",
}
"""Reasons that the same thing would change."""
NO_TILE_CHANGES = frozenset(
    {"label_no", "label_conditional", "label_not_stated", "lab_exceeds", "entry_says", "cone_outside_label"}
)
NO_WALL_RULE = "P7"
"""The base goes on rims only, or two labels share no cone: no tile opens a wall, and none should be made to try."""


def changes(asked: Asked) -> tuple[str, ...]:
    """What would change food, then running, then trust; each said once. No tile is asked for that must not be fired."""
    barred = any(stops(asked.verdict, asked.book, asked.judged, asked.words))
    trust = () if barred else tuple(_trust(asked.verdict, asked.words))
    return tuple(dict.fromkeys((*_food(asked), *_running(asked), *trust)))


def _food(asked: Asked) -> Iterator[str]:
    """Of the reasons that decide the level; of a kind level what would raise or lower it."""
    food, words = asked.verdict.food, asked.words
    if asked.never:
        yield words("why.change.house_never")
        return
    if food.level is FoodLevel.LAB_REPORT:
        yield words("why.change.lab_report")
    elif food.level is FoodLevel.LABELS_ALLOW:
        judged = asked.layering is None or asked.layering.coats is not None
        yield words("why.change.labels_allow" if judged else "why.change.labels_allow_no_coats")
    else:
        yield from _worse_food(asked)


def _worse_food(asked: Asked) -> Iterator[str]:
    """What stands in the way. Where some of it yields to no tile, only that: another tile would be made for nothing."""
    food, words = asked.verdict.food, asked.words
    deciding = [each for each in food.reasons if each.severity == food.level]
    firm = [each for each in deciding if _answer(each) in NO_TILE_CHANGES]
    for each in firm or deciding:
        yield words(f"why.change.food.{_answer(each)}", **dict(each.facts))
    if not firm and len(food.reasons) > len(deciding):
        yield words("why.change.others_too")


def _answer(reason: Reason) -> str:
    return SAME_ANSWER.get(reason.wording, reason.wording)


def _running(asked: Asked) -> Iterator[str]:
    moves, words, pair = asked.verdict.movement, asked.words, asked.layering
    top = pair.top if pair is not None else None
    if moves.off_the_tile:
        yield words("why.change.ran_off")
    if any(found.rule == NO_WALL_RULE for band in asked.verdict.bands for found in band.none):
        yield words("why.change.no_wall")
        return
    if moves.untested_upright:
        cone = asked.book.studio.cone.value.shifted(MEASURES_FROM_HALVES)
        yield words("why.change.measure" if pair and pair.coats else "why.change.measure_any", cone=cone)
    if top is not None and top.rim_only:
        known = top.goes_on.value is not NOT_KNOWN
        yield words("why.change.rim_only" if known else "why.change.rim_not_known", glaze=top.name.value)
    elif moves.reach_mm is not None and moves.cls is MoveClass.RUNNY and pair is not None and not moves.off_the_tile:
        yield words("why.change.reach" if pair.coats else "why.change.reach_no_coats", reach_down_mm=moves.reach_mm)
    if moves.worst_run:
        yield words("why.change.worst_run")
    elif not moves.untested_upright and not moves.off_the_tile:
        yield words("why.change.further_run")


def _trust(verdict: Verdict, words: Words) -> Iterator[str]:
    level = verdict.evidence.level
    if level is not EvidenceLevel.UNTESTED or not verdict.movement.untested_upright:
        one = level is EvidenceLevel.SEEN_ONCE and verdict.evidence.tiles == 1
        yield words("why.change.trust.seen_once_one" if one else f"why.change.trust.{EVIDENCE_KEYS[level]}")
