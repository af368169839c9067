"""Pieces that several pages show: pictures, marks with their words, reasons, facts, small cards."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from markupsafe import Markup, escape

from combobook.entries import Unknown, Written
from combobook.render.cards import LayeringCard, PictureView, card
from combobook.render.marks import MARKS, mark
from combobook.render.views.desk import Desk, has_page
from combobook.verdicts import EvidenceLevel, LayeringVerdict, Reason
from combobook.wording import sentence
from combobook.wording import upper_first as upper_first


@dataclass(frozen=True, slots=True, kw_only=True)
class Image:
    """A picture as a page shows it; `src`, a JPEG, and `webp`, the same picture, are relative to site/."""

    src: str
    webp: str
    width: int
    height: int
    alt: str
    caption: str
    drawing: str
    """The word that it is a drawing; empty for a photograph."""
    fired: str = ""
    """That this tile was fired hot, or cool; empty where it was fired as meant."""

    @property
    def note(self) -> str:
        """What must stand beside it even in a list: of a drawing that it is one, of a photograph its whole caption."""
        return self.drawing or self.caption


@dataclass(frozen=True, slots=True, kw_only=True)
class Why:
    """A reason in a sentence, and the line it rests on."""

    says: str
    at: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Signed:
    """Words with their mark. `key` names the frame."""

    key: str
    mark: Markup
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """A name and what is known, as text or as links."""

    name: str
    value: str | Markup
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A link relative to site/."""

    href: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SmallCard:
    """One layering in a list."""

    href: str
    """Relative to site/; empty where the layering has no page."""
    name: str
    image: Image | None
    no_image: str
    looks: str
    """The entry's; where it has none, the picture's colours in words."""
    food: Signed
    to_do: Signed
    catch: Signed | None
    trust: Signed
    shelf: str
    note: str = ""
    """What this list adds: how near its colour is."""


@cache
def sign(name: str) -> Markup:
    """A mark, without words of its own: they always stand beside it. It refers to the page's `sprite`."""
    return Markup(f'<svg class="mark" viewBox="0 0 24 24" aria-hidden="true"><use href="#mark-{escape(name)}"/></svg>')


@cache
def sprite() -> Markup:
    """Every mark once, drawn nowhere: what `sign` refers to."""
    drawn = ((name, mark(name)) for name in MARKS)
    symbols = "".join(
        f'<symbol id="mark-{name}" viewBox="0 0 24 24">{svg[svg.index(">") + 1 : svg.rindex("<")]}</symbol>'
        for name, svg in drawn
    )
    return Markup(
        f'<svg class="sprite" width="0" height="0" aria-hidden="true" stroke-width="2" stroke-linejoin="round" '
        f'stroke-linecap="round">{symbols}</svg>'
    )


def image(shown: PictureView | None, desk: Desk, size: str = "card") -> Image | None:
    """A picture at one of the sizes that the picture stage makes."""
    if shown is None:
        return None
    file, small = shown.picture.sizes[size], shown.picture.webp.get(size)
    return Image(
        src=file.path,
        webp=small.path if small is not None else "",
        width=file.width,
        height=file.height,
        alt=shown.alt,
        caption=shown.caption,
        drawing=desk.words("picture.drawing") if shown.picture.drawing else "",
        fired=desk.text("lists.tile_fired", fired=shown.fired) if shown.fired else "",
    )


def whys(reasons: Iterable[Reason], desk: Desk) -> tuple[Why, ...]:
    """Reasons as sentences, in the order in which they were given."""
    return tuple(Why(says=sentence(reason, desk.words), at=reason.place.at) for reason in reasons)


def known(value: Written[object], desk: Desk) -> str:
    """A value in words; what nobody knows is said so."""
    return desk.words("not_known") if isinstance(value.value, Unknown) else desk.words.fact("", value.value)


def link(href: str, words: str) -> Markup:
    """A link with its words; `href` is relative to the page."""
    return Markup(f'<a href="{escape(href)}">{escape(words)}</a>')


def layering_card(desk: Desk, verdict: LayeringVerdict) -> LayeringCard:
    """The layering's card, made once."""
    key = ("card", verdict.id)
    if key not in desk.kept:
        desk.kept[key] = card(desk.edition, verdict)
    made: LayeringCard = desk.kept[key]
    return made


def small_card(desk: Desk, verdict: LayeringVerdict, name: str) -> SmallCard:
    """A layering in a list, under the name that the list calls for (`over`, `then` or `first`)."""
    key = (f"small {name}", verdict.id)
    if key not in desk.kept:
        desk.kept[key] = _small_card(desk, verdict, name)
    made: SmallCard = desk.kept[key]
    return made


def _small_card(desk: Desk, verdict: LayeringVerdict, name: str) -> SmallCard:
    whole = layering_card(desk, verdict)
    names = {
        "over": whole.over,
        "then": desk.text("lists.then", top=whole.top),
        "first": desk.text("lists.first", base=whole.base),
    }
    untested = verdict.evidence.level is EvidenceLevel.UNTESTED
    return SmallCard(
        href=whole.page if has_page(verdict) else "",
        name=names[name],
        image=image(whole.picture, desk),
        no_image=desk.text("tiles.not_made") if untested else desk.words("picture.none"),
        looks=whole.looks or upper_first(whole.colour),
        food=Signed(key=whole.food_key, mark=sign(whole.food_mark), words=short_food(desk, whole)),
        to_do=Signed(key=whole.movement_key, mark=sign(whole.movement_mark), words=whole.to_do),
        catch=_catch(whole),
        trust=Signed(key=whole.evidence_key, mark=sign(whole.evidence_mark), words=upper_first(whole.evidence)),
        shelf=whole.on_shelf,
    )


def short_food(desk: Desk, whole: LayeringCard) -> str:
    """The food words of a card in one line, with a report's limits and ware: never the bare two words."""
    line = " ".join(whole.food_lines)
    return f"{line}: {whole.food_small}" if whole.food_key == "lab_report" and whole.food_small else line


def _catch(whole: LayeringCard) -> Signed | None:
    if not whole.catch_plate:
        return None
    return Signed(key="catch", mark=sign("catch-plate"), words=upper_first(whole.catch_plate))
