"""The first page: what this book is, how to use it, the cautions, the shelf, and what the marks mean."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from combobook.entries import Status
from combobook.render.cards import best_picture
from combobook.render.our_kiln import refused, to_do
from combobook.render.views.desk import Desk
from combobook.render.views.page import Page
from combobook.render.views.pieces import Image, Signed, Way, image, sign, upper_first
from combobook.render.views.questions import questions
from combobook.render.views.verdict import food_sign
from combobook.verdicts import GlazeVerdict

SHELVES: tuple[tuple[str, tuple[Status, ...]], ...] = (
    ("in_use", (Status.IN_USE, Status.RUNNING_LOW)),
    ("out", (Status.OUT,)),
    ("retired", (Status.RETIRED,)),
)
"""Parts of the shelf; a status that nobody knows stands with those in use, and says so."""
FOOD = ("keep_off", "not_known", "labels_allow", "lab_report")
MOVEMENT = ("stable", "moves", "runny")
EVIDENCE = ("untested", "old", "disagrees", "seen_once", "repeated", "steady")


@dataclass(frozen=True, slots=True, kw_only=True)
class Jar:
    """One glaze on the shelf."""

    href: str
    mark: str
    name: str
    image: Image | None
    no_image: str
    food: Signed
    status: str
    """What is out of the ordinary: running low, not known, for another kiln; else empty."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """A part of the shelf with its heading."""

    id: str
    title: str
    lead: str
    jars: tuple[Jar, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Meaning:
    """A mark, its words and what they mean."""

    sign: Signed
    means: str


def pages(desk: Desk) -> Iterator[Page]:
    """The one page."""
    words, book = desk.words, desk.book
    view: dict[str, object] = {
        "lead": _lead(desk),
        "counts": _counts(desk),
        "steps": words.lines("site.index.steps"),
        "finding": _ways(desk, "find", "pair"),
        "ways": _ways(desk, "layerings", "grid", "questions", "colours", "contact", "forms", "clays", "firings"),
        "asked": questions(desk),
        "cautions_title": words("cautions.title"),
        "cautions": words.lines("cautions.lines"),
        "cautions_private": words("cautions.private"),
        "house": tuple(rule.value for rule in book.studio.house_rules),
        "free": tuple(Way(href=f"pages/{page.id}.html", words=page.title.value) for page in book.pages.values()),
        "shelves": tuple(shelf for shelf in _shelves(desk) if shelf.jars),
        "drawings": _drawings(desk),
        "food": _food_key(desk),
        "piece": words("food.piece"),
        "movement": _movement_key(desk),
        "limits": words("movement.house_limits"),
        "evidence": tuple(_meaning(desk, "evidence", key, "short") for key in EVIDENCE),
    }
    title = desk.text("index.title")
    yield Page(path="index.html", template="index.html", title=title, view=view, nav="home")


def _lead(desk: Desk) -> str:
    studio = desk.book.studio
    return desk.text("index.lead", studio=studio.name.value, cone=studio.cone.value)


def _counts(desk: Desk) -> tuple[str, ...]:
    book, words = desk.book, desk.words
    fired = {tile.tile.value for tile in book.tiles if tile.fired}
    firings = {tile.firing.id for tile in book.tiles if tile.firing is not None}
    unfired = {tile.tile.value for tile in book.tiles} - fired
    waiting = (desk.text("clays.waiting", n=len(unfired)),) if unfired else ()
    return (
        words.counted("glazes", len(book.glazes)),
        words.counted("layerings", sum(map(len, desk.on.values()))),
        " ".join((words.counted("tiles", len(fired)), *waiting)),
        words.counted("firings", len(firings)),
    )


def _ways(desk: Desk, *pages: str) -> tuple[Way, ...]:
    return tuple(Way(href=f"{page}.html", words=desk.text(f"index.ways.{page}")) for page in pages)


def _drawings(desk: Desk) -> str:
    """That all pictures are drawings, or some; empty where none is."""
    drawn = {picture.drawing for picture in desk.edition.pictures.values()}
    if True not in drawn:
        return ""
    return desk.words("edition.some_drawings" if False in drawn else "edition.drawings") + "."


def _shelves(desk: Desk) -> Iterator[Shelf]:
    judged = sorted(desk.edition.judged.glazes.values(), key=lambda v: (v.glaze.name.value.casefold(), v.glaze.id))
    for key, statuses in SHELVES:
        jars = tuple(_jar(desk, verdict) for verdict in judged if _stands(verdict, statuses))
        title, lead = desk.text(f"index.shelf.{key}"), desk.text(f"index.shelf.{key}_lead")
        yield Shelf(id=key.replace("_", "-"), title=title, lead=lead, jars=jars)


def _stands(verdict: GlazeVerdict, statuses: tuple[Status, ...]) -> bool:
    status = verdict.glaze.status.value
    return status in statuses if isinstance(status, Status) else Status.IN_USE in statuses


def _jar(desk: Desk, verdict: GlazeVerdict) -> Jar:
    glaze, status = verdict.glaze, verdict.glaze.status.value
    plain = status in (Status.IN_USE, Status.OUT, Status.RETIRED)
    said = status.value if isinstance(status, Status) else desk.text("index.shelf.not_known")
    return Jar(
        href=f"glazes/{glaze.id}.html",
        mark=glaze.mark.value,
        name=glaze.name.value,
        image=image(best_picture(desk.edition, verdict), desk),
        no_image=desk.words("picture.none") if verdict.tiles else desk.text("tiles.not_made"),
        food=food_sign(desk, verdict.food, True, short=True),
        status=" · ".join(part for part in ("" if plain else upper_first(said), _kiln(desk, verdict)) if part),
    )


def _kiln(desk: Desk, verdict: GlazeVerdict) -> str:
    """That it goes into no kiln of ours; empty where it may."""
    return to_do(verdict, desk.book, desk.words) if refused(verdict, desk.book) else ""


def _food_key(desk: Desk) -> tuple[Meaning, ...]:
    """The four levels and the house's own words where nothing is for food; what each means for a piece."""
    keys = ("never", *FOOD) if desk.never else FOOD
    return tuple(
        Meaning(
            sign=Signed(key=key, mark=sign(desk.words(f"food.{key}.mark")), words=_food_words(desk, key)),
            means=desk.text(f"index.key.{key}"),
        )
        for key in keys
    )


def _food_words(desk: Desk, key: str) -> str:
    return desk.words("food.key_lab_report" if key == "lab_report" else f"food.{key}.full")


def _movement_key(desk: Desk) -> tuple[Meaning, ...]:
    known = tuple(_meaning(desk, "movement", key, "word") for key in MOVEMENT)
    extra = (("catch-plate", "catch_plate"), ("rim-only", "rim_only"))
    return known + tuple(
        Meaning(
            sign=Signed(key=key, mark=sign(name), words=desk.text(f"index.key.{key}")),
            means=desk.text(f"index.key.{key}_means"),
        )
        for name, key in extra
    )


def _meaning(desk: Desk, table: str, key: str, words: str) -> Meaning:
    said = upper_first(desk.words(f"{table}.{key}.{words}"))
    signed = Signed(key=key, mark=sign(key.replace("_", "-")), words=said)
    return Meaning(sign=signed, means=upper_first(desk.words(f"{table}.{key}.means")) + ".")
