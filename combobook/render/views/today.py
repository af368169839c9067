"""What a substitute may let the class do today, and what waits for the teacher.

Nothing is decided here: a glaze is for everybody when its jar is in use, its label fits the studio's cone, it goes
anywhere and it is not judged runny; a layering when both its glazes are, it is on the chart, is judged stable, needs no
catch plate and its tiles are neither old nor at odds. A layering whose cautions send to the teacher is not for food
while the teacher is away, and of one that is, the clays are named where not all have been tried. What does not stand on
the page is for the teacher. That is the house's own rule and common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from combobook.entries import Glaze, Status, Unknown
from combobook.render.cautions import asks_first, clays_that_speak, only_some_clays
from combobook.render.our_kiln import misses, unread
from combobook.render.views.asking import (
    Named,
    by_first_then_top,
    glaze_href,
    glazes_by_name,
    in_use,
    question_page,
)
from combobook.render.views.desk import Desk
from combobook.render.views.glaze import coats_known, coats_words
from combobook.render.views.page import Page
from combobook.render.views.pieces import Signed, layering_card, short_food, sign, upper_first
from combobook.render.views.surfaces import melts
from combobook.render.views.verdict import food_sign
from combobook.verdicts import EvidenceLevel, GlazeVerdict, LayeringVerdict, MoveClass, ToDo
from combobook.wording import MOVE_KEYS, to_do_words

PATH = "today.html"
SPEAKING = (EvidenceLevel.SEEN_ONCE, EvidenceLevel.REPEATED, EvidenceLevel.STEADY)
WAITING = ("runny", "rim", "unsure", "gone")
"""Why a jar waits for the teacher, in the order of the page; words at `site.asking.today.waiting`."""

SAID = (
    "lead", "marks", "rule_title", "rule", "jobs_title", "waiting_title", "clays_title", "teacher_title", "call_title",
    "call_note",
)  # fmt: skip
"""What the page says in the same words whatever the book has; words at `site.asking.today`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowed:
    """A glaze or layering that anyone may brush today."""

    href: str
    mark: str
    """Of a glaze; empty for a layering."""
    name: str
    """Of a layering in brushing order: `Ferry Rust first, then Pond Lantern`."""
    coats: str
    food: Signed
    to_do: Signed
    note: str
    """What is out of the ordinary: running low, kept off food while the teacher is away; else empty."""
    label: str
    """That nobody knows what a glaze's label says about food, for the page, which has room for it; else empty."""
    clays: str = ""
    """The only clays on which it may touch food; empty where all have been tried, or it may not."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AllowedList:
    """Those that may go where food goes, or those that may not."""

    id: str
    title: str
    lead: str
    glazes: tuple[Allowed, ...]
    layerings: tuple[Allowed, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """Jars that wait for the teacher, and why."""

    why: str
    glazes: tuple[Named, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TodayView:
    """The whole page, in finished words: the site's page and the printed sheet are both set from it."""

    lead: str
    never: str
    """The house rule that nothing is for food, or empty."""
    marks: str
    """The link to what the marks mean."""
    rule_title: str
    rule: str
    """The one sentence to keep: what is not on this page waits."""
    jobs_title: str
    jobs: tuple[str, ...]
    lists: tuple[AllowedList, ...]
    none: str
    """What to say where no list has anything."""
    waiting_title: str
    waiting: tuple[Waiting, ...]
    clays_title: str
    clays: tuple[str, ...]
    """On which clays, on which not, and that any other waits; empty where the book has no clay."""
    teacher_title: str
    teacher: tuple[str, ...]
    cautions_title: str
    cautions: tuple[str, ...]
    piece: str
    house_title: str
    house: tuple[str, ...]
    call_title: str
    call_note: str
    """Where the numbers are written down: for the page, which has no lines to write on."""
    call: tuple[str, ...]
    """Each is followed by a blank line to write on."""


def pages(desk: Desk) -> Iterator[Page]:
    """The one page."""
    yield question_page(desk, PATH, {"today": today_view(desk)})


def answer(desk: Desk) -> str:
    """How many glazes and layerings are for everybody."""
    glazes, layerings = allowed_glazes(desk), allowed_layerings(desk)
    return desk.text(
        "asking.today.answer",
        glazes=desk.words.counted("glazes", len(glazes)),
        layerings=desk.words.counted("layerings", len(layerings)),
    )


def today_view(desk: Desk) -> TodayView:
    """What the class may do, what waits, the cautions, and whom to call."""
    words, lists = desk.words, tuple(each for each in _lists(desk) if each.glazes or each.layerings)
    said = {key: desk.text(f"asking.today.{key}") for key in SAID}
    return TodayView(
        **said,
        never=words("food.never.full") if desk.never else "",
        jobs=words.lines("site.asking.today.jobs"),
        clays=tuple(_clays(desk)),
        lists=lists,
        none="" if lists else desk.text("asking.today.none"),
        waiting=tuple(each for each in _waiting(desk) if each.glazes),
        teacher=words.lines("site.asking.today.teacher"),
        cautions_title=words("cautions.title"),
        cautions=words.lines("cautions.lines"),
        piece=words("food.piece"),
        house_title=desk.text("index.house"),
        house=tuple(rule.value for rule in desk.book.studio.house_rules),
        call=words.lines("site.asking.today.call"),
    )


def allowed_glazes(desk: Desk) -> tuple[GlazeVerdict, ...]:
    """Glazes that anyone may brush by themselves, by name."""
    return tuple(verdict for verdict in glazes_by_name(desk) if not _waits(desk, verdict))


def allowed_layerings(desk: Desk) -> tuple[LayeringVerdict, ...]:
    """Layerings on the chart that stay put, of glazes that anyone may brush, by name in brushing order."""
    glazes = {verdict.glaze.id for verdict in allowed_glazes(desk)}
    return by_first_then_top(
        verdict
        for verdict in desk.edition.judged.layerings.values()
        if {verdict.base.id, verdict.top.id} <= glazes and _on_chart(verdict) and _stays(verdict)
    )


def _on_chart(verdict: LayeringVerdict) -> bool:
    return verdict.entry is not None and verdict.entry.on_chart and verdict.coats is not None


def _stays(verdict: LayeringVerdict) -> bool:
    moves = verdict.movement
    calm = moves.cls is MoveClass.STABLE and not moves.catch_plate and moves.to_do is ToDo.LEAVE
    return calm and verdict.evidence.level in SPEAKING


def _waits(desk: Desk, verdict: GlazeVerdict) -> str:
    """Why a jar waits for the teacher (of WAITING), or empty where anyone may use it."""
    glaze = verdict.glaze
    if glaze.status.value in (Status.OUT, Status.RETIRED):
        return "gone"
    if not in_use(glaze) or not coats_known(glaze) or unread(glaze) or misses(glaze, desk.book):
        return "unsure"
    if glaze.rim_only:
        return "rim"
    calm = verdict.movement.cls < MoveClass.RUNNY and not verdict.movement.catch_plate
    return "" if calm and verdict.movement.to_do is ToDo.LEAVE else "runny"


def _waiting(desk: Desk) -> Iterator[Waiting]:
    for why in WAITING:
        jars = (verdict.glaze for verdict in glazes_by_name(desk) if _waits(desk, verdict) == why)
        yield Waiting(
            why=desk.text(f"asking.today.waiting.{why}", cone=desk.book.studio.cone.value),
            glazes=tuple(Named(href=glaze_href(g), mark=g.mark.value, name=g.name.value, note="") for g in jars),
        )


def _lists(desk: Desk) -> Iterator[AllowedList]:
    """Food first; where the house makes nothing for food, one list."""
    glazes, layerings = allowed_glazes(desk), allowed_layerings(desk)
    for key, may in (("food", True), ("other", False)):
        yield AllowedList(
            id=f"for-{key}",
            title=desk.text(f"asking.today.{'never' if desk.never else key}"),
            lead=desk.text(f"asking.today.{'never' if desk.never else key}_lead"),
            glazes=tuple(_glaze(desk, each) for each in glazes if each.food.food_ware is may),
            layerings=tuple(_layering(desk, each) for each in layerings if for_food(desk, each) is may),
        )


def for_food(desk: Desk, verdict: LayeringVerdict) -> bool:
    """It may go where food goes with nobody to ask: on some clay, and with no caution that sends to the teacher."""
    asks = asks_first(verdict, desk.edition.judged)
    return verdict.food.food_ware and not asks and bool(clays_that_speak(verdict) or not desk.book.clays)


def _glaze(desk: Desk, verdict: GlazeVerdict) -> Allowed:
    glaze, key = verdict.glaze, MOVE_KEYS[verdict.movement.cls]
    status = glaze.status.value
    return Allowed(
        href=glaze_href(glaze),
        mark=glaze.mark.value,
        name=glaze.name.value,
        coats=coats_words(desk, glaze),
        food=food_sign(desk, verdict.food, True, short=True),
        to_do=Signed(key=key, mark=sign(key), words=to_do_words(verdict.movement, desk.words)),
        note=upper_first(desk.words.fact("", status)) if status is Status.RUNNING_LOW else "",
        label=_label(desk, glaze),
    )


def _label(desk: Desk, glaze: Glaze) -> str:
    """What a substitute should notice: an empty place where the label's word on food should stand."""
    unknown = isinstance(glaze.food_label.value, Unknown) and not desk.never
    return desk.text("asking.today.label_blank") if unknown else ""


def _clays(desk: Desk) -> Iterator[str]:
    """Which clays may be glazed today: those whose own range has the studio's cone."""
    kinds: dict[str, list[str]] = {}
    for clay in sorted(desk.book.clays.values(), key=lambda clay: (clay.name.value.casefold(), clay.id)):
        unknown = isinstance(clay.cone.value, Unknown)
        key = "clays_unknown" if unknown else "clays_not" if melts(desk, clay) else "clays"
        kinds.setdefault(key, []).append(clay.name.value)
    for key in ("clays", "clays_not", "clays_unknown"):
        if key in kinds:
            named = desk.words.listed(kinds[key])
            yield desk.text(f"asking.today.{key}", clays=named, cone=desk.book.studio.cone.value)
    if kinds:
        yield desk.text("asking.today.clays_other")


def _layering(desk: Desk, verdict: LayeringVerdict) -> Allowed:
    whole, may = layering_card(desk, verdict), for_food(desk, verdict)
    asks = verdict.food.food_ware and not may
    return Allowed(
        href=whole.page,
        mark="",
        name=whole.order,
        coats=whole.coats,
        food=Signed(key=whole.food_key, mark=sign(whole.food_mark), words=short_food(desk, whole)),
        to_do=Signed(key=whole.movement_key, mark=sign(whole.movement_mark), words=whole.to_do),
        note=desk.text("asking.today.asks_first") if asks else "",
        label="",
        clays=_only_on(desk, verdict) if may else "",
    )


def _only_on(desk: Desk, verdict: LayeringVerdict) -> str:
    if not only_some_clays(verdict, desk.book):
        return ""
    return desk.text("asking.today.only_on", clays=desk.words.listed(list(clays_that_speak(verdict))))
