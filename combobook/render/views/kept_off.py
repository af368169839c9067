"""Every glaze and layering that is kept off food, grouped by the kind of reason that decides it, with its sentence.

The deciding reason is the first of its verdict: the judge lists the worst first.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from combobook.render.views.asking import Named, by_first_then_top, glaze_href, glazes_by_name, question_page
from combobook.render.views.desk import Desk, has_page
from combobook.render.views.page import Page
from combobook.render.views.pieces import Signed, sign
from combobook.verdicts import FoodLevel, FoodVerdict, GlazeVerdict, LayeringVerdict
from combobook.wording import FOOD_KEYS, order_words, sentence

PATH = "keep-off.html"
KINDS: Mapping[str, str] = {
    "F1": "label_no",
    "F3": "lab",
    "F4": "studio",
    "F2": "faults",
    "F5": "label",
    "F6": "coats",
    "F7": "cone",
    "F8": "looked",
}
"""The kind of each rule that can decide, in the order of the page; its words are at `site.asking.keep_off.kinds`."""
Verdict = GlazeVerdict | LayeringVerdict


@dataclass(frozen=True, slots=True, kw_only=True)
class Same:
    """All that are kept off for one and the same sentence."""

    says: str
    glazes: tuple[Named, ...]
    layerings: tuple[Named, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """A kind of reason."""

    id: str
    title: str
    count: str
    reasons: tuple[Same, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A level of verdict, worst first, with its kinds of reason."""

    id: str
    title: str
    means: str
    sign: Signed | None
    """None where the house rule is said once for all."""
    kinds: tuple[Kind, ...]


def pages(desk: Desk) -> Iterator[Page]:
    """The one page."""
    kept = tuple(part for part in _parts(desk) if part.kinds)
    house = _house(desk)
    view: dict[str, object] = {
        "lead": answer(desk),
        "never": desk.words("food.never.full") if desk.never else "",
        "parts": kept,
        "house": house,
        "house_lead": desk.text("asking.keep_off.house_lead") if house else "",
        "untested": desk.text("asking.keep_off.untested"),
        "piece": desk.words("food.piece"),
    }
    yield question_page(desk, PATH, view)


def answer(desk: Desk) -> str:
    """How many there are."""
    if desk.never:
        return desk.words("food.never.full") + "."
    glazes, layerings = kept_off(desk)
    if not glazes and not layerings:
        return desk.text("asking.keep_off.none")
    return desk.text(
        "asking.keep_off.answer",
        glazes=desk.words.counted("glazes", len(glazes)),
        layerings=desk.words.counted("layerings", len(layerings)),
    )


def kept_off(desk: Desk) -> tuple[tuple[GlazeVerdict, ...], tuple[LayeringVerdict, ...]]:
    """Glazes, and layerings that have a page, which may not go where food goes: by verdict, or by house rule."""
    return (
        tuple(each for each in glazes_by_name(desk) if not each.food.food_ware),
        tuple(each for each in _shown(desk) if not each.food.food_ware),
    )


def _shown(desk: Desk) -> tuple[LayeringVerdict, ...]:
    return by_first_then_top(each for each in desk.edition.judged.layerings.values() if has_page(each))


def _parts(desk: Desk) -> Iterator[Part]:
    everything: tuple[Verdict, ...] = (*glazes_by_name(desk), *_shown(desk))
    for level in (FoodLevel.KEEP_OFF, FoodLevel.NOT_KNOWN):
        of_level = tuple(each for each in everything if each.food.level is level)
        key = FOOD_KEYS[level]
        mark = sign(desk.words(f"food.{key}.mark"))
        yield Part(
            id=key.replace("_", "-"),
            title=desk.text(f"asking.keep_off.{key}"),
            means=desk.text(f"asking.keep_off.{key}_means"),
            sign=None if desk.never else Signed(key=key, mark=mark, words=desk.words(f"food.{key}.full")),
            kinds=tuple(_kinds(desk, key, of_level)),
        )


def _kinds(desk: Desk, part: str, verdicts: Iterable[Verdict]) -> Iterator[Kind]:
    by_rule: dict[str, list[Verdict]] = {rule: [] for rule in KINDS}
    for verdict in verdicts:
        by_rule[verdict.food.reasons[0].rule].append(verdict)
    for rule, some in by_rule.items():
        if some:
            yield Kind(
                id=f"{part}-{KINDS[rule]}".replace("_", "-"),
                title=desk.text(f"asking.keep_off.kinds.{KINDS[rule]}"),
                count=_count(desk, some),
                reasons=_by_sentence(desk, some),
            )


def _count(desk: Desk, some: Iterable[Verdict]) -> str:
    """`2 glazes, 14 layerings`; what there is none of is not said."""
    glazes = sum(isinstance(each, GlazeVerdict) for each in some)
    layerings = sum(isinstance(each, LayeringVerdict) for each in some)
    counts = (("glazes", glazes), ("layerings", layerings))
    return ", ".join(desk.words.counted(key, n) for key, n in counts if n)


def _by_sentence(desk: Desk, some: Iterable[Verdict]) -> tuple[Same, ...]:
    """Those with the same sentence together, in the order in which a sentence is first met."""
    found: dict[str, list[Verdict]] = {}
    for verdict in some:
        found.setdefault(sentence(verdict.food.reasons[0], desk.words), []).append(verdict)
    return tuple(
        Same(
            says=says,
            glazes=tuple(named_glaze(desk, each) for each in those if isinstance(each, GlazeVerdict)),
            layerings=tuple(named_layering(desk, each) for each in those if isinstance(each, LayeringVerdict)),
        )
        for says, those in found.items()
    )


def named_glaze(desk: Desk, verdict: GlazeVerdict) -> Named:
    """A glaze by itself in a list of glazes and layerings."""
    glaze = verdict.glaze
    name = desk.text("asking.alone", glaze=glaze.name.value)
    return Named(href=glaze_href(glaze), mark=glaze.mark.value, name=name, note=_more(desk, verdict.food))


def named_layering(desk: Desk, verdict: LayeringVerdict) -> Named:
    """A layering in the order in which it is brushed."""
    name = order_words(verdict.base.name.value, verdict.top.name.value, desk.words)
    return Named(href=f"combinations/{verdict.id}.html", mark="", name=name, note=_more(desk, verdict.food))


def _more(desk: Desk, food: FoodVerdict) -> str:
    """That other reasons stand on its page; empty where there is but one sentence."""
    others = {sentence(reason, desk.words) for reason in food.reasons[1:]} - {sentence(food.reasons[0], desk.words)}
    return desk.words.counted("more_reasons", len(others)) if others else ""


def _house(desk: Desk) -> tuple[Named, ...]:
    """Labels allow it, and the house's `food rule` keeps it away from food all the same."""
    if desk.never:
        return ()
    glazes, layerings = kept_off(desk)
    allowed = FoodLevel.LABELS_ALLOW
    return (
        *(named_glaze(desk, each) for each in glazes if each.food.level >= allowed),
        *(named_layering(desk, each) for each in layerings if each.food.level >= allowed),
    )
