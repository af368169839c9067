"""Large, for a class before a projector: one layering or one comparison fills the window, the next follows it.

The layerings of one first glaze are a page, each a part of it as high as the window: without any script the keys that
page through a document page through them, and each leads on to the next.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from markupsafe import Markup

from combobook.entries import Form, Glaze, Unknown
from combobook.kept import Kept
from combobook.pictures import PictureFile
from combobook.render.cards import LayeringCard, PictureView
from combobook.render.cautions import cautions
from combobook.render.contact.placed import Placed, placed
from combobook.render.our_kiln import refused, shown
from combobook.render.profiles import profile
from combobook.render.shapes import kind_of
from combobook.render.views.compare import FACTS, WINDOW, Beside, beside
from combobook.render.views.comparisons import COMPARISONS
from combobook.render.views.desk import Desk
from combobook.render.views.page import Page
from combobook.render.views.pieces import Signed, layering_card, sign, upper_first
from combobook.render.views.running import running_view
from combobook.render.views.trust import trust_view
from combobook.verdicts import LayeringVerdict, ToDo
from combobook.wording import food_lines

PATH = "projector.html"
POT_TALL = 119.0
"""How tall the pot may be drawn, in the letters of its labels, of which each is 16."""
_SCALE = 1.25
NAMED = ("ran", "faults")
"""Facts that do not say by themselves what they are about."""
_NAME_LETTERS = (16, 24)
"""A name longer than these is set smaller, and smaller again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A tile's picture behind its window."""

    file: PictureFile
    placed: Placed
    alt: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Slide:
    """One layering, or (`sides`) one comparison of two tiles."""

    id: str
    name: str
    length: str
    """`short`, `long` or `longest`: how large the name can be."""
    over: str
    href: str
    """The layering's page, relative to site/."""
    nth: str
    coats: str = ""
    notice: str = ""
    """That a glaze is out or retired."""
    picture: Shown | None = None
    no_image: str = ""
    food: Signed | None = None
    food_lines: tuple[str, ...] = ()
    food_small: str = ""
    cautions: tuple[str, ...] = ()
    """What the verdict does not speak of."""
    to_do: Signed | None = None
    under: str = ""
    catch: Signed | None = None
    trust: Signed | None = None
    counts: str = ""
    pot: Markup | str = ""
    pot_name: str = ""
    sides: tuple[Beside, ...] = ()
    rests_on: str = ""
    """How the colours compared were measured."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    """A first glaze with its slides: one page of them."""

    href: str
    mark: str
    name: str
    count: str


def pages(desk: Desk) -> Iterator[Page]:
    """The page to begin at, then one page for each first glaze."""
    glazes = sorted((desk.book.glazes[glaze] for glaze in desk.on), key=lambda g: (g.name.value.casefold(), g.id))
    title = desk.text("projector.title")
    rounds = tuple(_round(desk, glaze) for glaze in glazes)
    yield Page(path=PATH, template="projector.html", title=title, view={"rounds": rounds}, nav="")
    made = [_slides(desk, glaze) for glaze in glazes]
    for n, (glaze, slides) in enumerate(zip(glazes, made, strict=True)):
        before, after = (n - 1) % len(glazes), (n + 1) % len(glazes)
        view: dict[str, object] = {
            "window": WINDOW,
            "names": tuple(desk.text(f"beside.facts.{name}") if name in NAMED else "" for name in FACTS),
            "slides": slides,
            "before": f"projector/{glazes[before].id}.html#{made[before][-1].id}",
            "after": f"projector/{glazes[after].id}.html",
            "piece": desk.words("food.piece"),
        }
        path, named = f"projector/{glaze.id}.html", desk.text("projector.of", glaze=glaze.name.value)
        yield Page(path=path, template="slides.html", title=named, view=view, nav="")


def href_of(verdict: LayeringVerdict) -> str:
    """A layering's slide, relative to site/."""
    return f"projector/{verdict.base.id}.html#{verdict.top.id}"


def _round(desk: Desk, glaze: Glaze) -> Round:
    return Round(
        href=f"projector/{glaze.id}.html",
        mark=glaze.mark.value,
        name=glaze.name.value,
        count=desk.words.counted("layerings", len(desk.on[glaze.id])),
    )


def _slides(desk: Desk, glaze: Glaze) -> tuple[Slide, ...]:
    """Its layerings by the top's name, each followed by what it can be compared with."""
    verdicts = sorted(desk.on[glaze.id], key=lambda v: (v.top.name.value.casefold(), v.top.id))
    made = [slide for verdict in verdicts for slide in (_layering(desk, verdict), *_comparisons(desk, verdict))]
    return tuple(
        replace(slide, nth=desk.text("projector.nth", n=n, all=len(made))) for n, slide in enumerate(made, start=1)
    )


def _layering(desk: Desk, verdict: LayeringVerdict) -> Slide:
    whole = layering_card(desk, verdict)
    running, trust = running_view(desk, verdict), trust_view(desk, verdict.evidence)
    form = _form(desk)
    return Slide(
        id=verdict.top.id,
        name=whole.top,
        length=_length(whole.top),
        over=desk.text("lists.over", base=whole.base),
        href=whole.page,
        nth="",
        coats=whole.coats if verdict.coats else "",
        notice=whole.on_shelf,
        picture=_shown(desk, whole.picture),
        no_image=desk.words("picture.none") if trust.counts else desk.text("tiles.not_made"),
        food=Signed(key=whole.food_key, mark=sign(whole.food_mark), words=""),
        food_lines=food_lines(verdict.food, desk.never, desk.words),
        food_small=_small(whole),
        cautions=cautions(verdict, desk.book, desk.edition.judged, desk.words),
        to_do=running.sign,
        under=_under(desk, verdict),
        catch=running.catch,
        trust=trust.sign,
        counts=", ".join(trust.counts),
        pot=_pot(desk, shown(verdict, desk.book), form) if form is not None else Markup(""),
        pot_name=form.name.value if form is not None else "",
    )


def _under(desk: Desk, verdict: LayeringVerdict) -> str:
    """What the instruction leaves open, in few words: the bare foot, or where its length is measured."""
    if refused(verdict, desk.book):
        return desk.words("other_kiln.under")
    if verdict.movement.to_do is ToDo.LEAVE:
        return desk.text("projector.under_leave")
    return desk.text("projector.under_foot", foot=desk.words.short_length(verdict.movement.margin_mm, "up"))


def _small(whole: LayeringCard) -> str:
    return upper_first(whole.food_small)


def _length(name: str) -> str:
    return "short" if len(name) <= _NAME_LETTERS[0] else "long" if len(name) <= _NAME_LETTERS[1] else "longest"


def _shown(desk: Desk, shown: PictureView | None) -> Shown | None:
    if shown is None:
        return None
    note = desk.words("picture.drawing") if shown.picture.drawing else shown.caption
    return Shown(file=shown.picture.page, placed=placed(shown.picture), alt=shown.alt, note=note)


def _comparisons(desk: Desk, verdict: LayeringVerdict) -> Iterator[Slide]:
    """What two measured pictures say of it: the other order, more coats, another clay."""
    found_all = (compare(desk, verdict) for compare in COMPARISONS)
    for n, found in enumerate((each for each in found_all if each is not None), start=1):
        sides = tuple(each for tile in found.tiles if (each := beside(desk, tile, "page")) is not None)
        if len(sides) == len(found.tiles):
            whole = layering_card(desk, verdict)
            yield Slide(
                id=f"{verdict.top.id}-{n}", name=found.says, length="longest", over="", href=whole.page, nth="",
                sides=sides, rests_on=found.rests_on,
            )  # fmt: skip


def _form(desk: Desk) -> Form | None:
    """The one form that is drawn: a mug, else what holds food, else any whose height is known."""
    key = ("projector form", "")
    if key not in desk.kept:
        known = (form for form in desk.book.forms.values() if not isinstance(form.height.value, Unknown))
        desk.kept[key] = min(
            known, key=lambda f: (kind_of(f) != "mug", f.holds_food.value is not True, f.id), default=None
        )
    made: Form | None = desk.kept[key]
    return made


_POTS: Kept[Markup] = Kept()


def _pot(desk: Desk, verdict: LayeringVerdict, form: Form) -> Markup:
    """The form with its band, sized in the letters around it and not in the page's, under ids of the slide's own."""
    band = next((each for each in verdict.bands if each.form.id == form.id), None)
    if band is None or isinstance(form.height.value, Unknown):
        return Markup("")
    scale = min(_SCALE, POT_TALL / float(form.height.value))
    pot = _POTS(verdict.id, (form, band, desk.words), lambda: profile(form, band, desk.words, scale=scale))
    made = str(pot).replace('rem"', 'em"')
    return Markup(made.replace(f"profile-{form.id}", f"profile-{verdict.top.id}"))
