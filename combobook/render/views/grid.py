"""Every ordered pair in one grid: first glaze down, top glaze across. Untested is a stated value, in words.

A square shows its verdict on food, what to do about running, or how far to trust it, as the reader chooses; untested
squares are the class's map of what to try. Its words are in three lines, so that our script can take them apart.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from markupsafe import Markup, escape

from combobook.entries import Clay, Glaze
from combobook.plans import Ground
from combobook.render.cards import LayeringCard
from combobook.render.views.desk import Desk, Pair, has_page
from combobook.render.views.page import Page
from combobook.render.views.pieces import Signed, layering_card, short_food, sign, upper_first
from combobook.verdicts import EvidenceLevel, LayeringVerdict
from combobook.wording import EVIDENCE_KEYS, MOVE_KEYS

MOST_WITH_PICTURES = 28
"""Beyond so many glazes a picture in a square shows nothing, and the page would grow heavy: marks alone."""
MOST_IN_THE_COLUMN = 21
"""More columns than these need the whole width of a window."""
FOOD = ("keep_off", "not_known", "labels_allow", "lab_report")


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """A glaze at the head of a row or column."""

    href: str
    mark: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Square:
    """One ordered pair. `words` say all that the square shows."""

    kind: str
    """`tested`; untested and `open`, `planned` or `shut` (not to be tried now); `same`."""
    href: str
    marks: Markup
    """Food, running, evidence: the page shows one of them."""
    picture: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GridRow:
    head: Head
    squares: tuple[Square, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Showing:
    """Something that the squares can show, and what its marks mean."""

    key: str
    words: str
    legend: tuple[Signed, ...]
    chosen: bool


def pages(desk: Desk) -> Iterator[Page]:
    """The one page."""
    glazes = sorted(desk.book.glazes.values(), key=lambda glaze: (glaze.name.value.casefold(), glaze.id))
    squares = _Squares(desk, pictures=len(glazes) <= MOST_WITH_PICTURES)
    rows = tuple(GridRow(head=_head(base), squares=tuple(squares.of(base, top) for top in glazes)) for base in glazes)
    kinds = [square.kind for row in rows for square in row.squares]
    view: dict[str, object] = {
        "lead": _lead(desk, kinds),
        "heads": tuple(_head(glaze) for glaze in glazes),
        "rows": rows,
        "size": "wide" if len(glazes) > MOST_IN_THE_COLUMN else "",
        "showings": _showings(desk),
        "tries": _tries(desk, kinds),
        "piece": desk.words("food.piece"),
        "drawings": _drawings(desk) if squares.pictures else "",
    }
    yield Page(path="grid.html", template="grid.html", title=desk.text("grid.title"), view=view, nav="grid")


def _lead(desk: Desk, kinds: list[str]) -> str:
    every = len(kinds) - kinds.count("same")
    lead = desk.text("grid.lead", tested=kinds.count("tested"), all=every)
    planned = kinds.count("planned")
    return f"{lead} {desk.text('grid.lead_planned', planned=planned)}" if planned else lead


def _drawings(desk: Desk) -> str:
    """That all or some of the pictures are drawings; empty where none is."""
    drawn = {picture.drawing for picture in desk.edition.pictures.values()}
    if True not in drawn:
        return ""
    return desk.words("edition.drawings" if drawn == {True} else "edition.some_drawings") + "."


def _head(glaze: Glaze) -> Head:
    return Head(href=f"glazes/{glaze.id}.html", mark=glaze.mark.value, name=glaze.name.value)


class _Squares:
    """Makes each pair's square; what the plan says of glazes and pairs is looked up once."""

    def __init__(self, desk: Desk, *, pictures: bool) -> None:
        self.desk, self.pictures = desk, pictures
        self._marks: dict[tuple[str, ...], Markup] = {}
        self._planned = _planned(desk)
        self._shut = _shut(desk)

    def of(self, base: Glaze, top: Glaze) -> Square:
        """The square of the top over the base."""
        desk = self.desk
        if base.id == top.id:
            same = desk.text("grid.same", glaze=base.name.value)
            return Square(kind="same", href="", marks=Markup(""), picture="", words=same)
        pair = (base.id, top.id)
        verdict = desk.edition.pairs.get(pair) or desk.edition.judged.layerings.get(pair)
        if verdict is None:
            over = desk.words("coats.over", base=base.name.value, top=top.name.value)
            words = f"{over}:\n{self._untested(pair, base, top)}"
            return Square(kind=self._try(pair, base, top), href="", marks=Markup(""), picture="", words=words)
        whole = layering_card(desk, verdict)
        if verdict.evidence.level is EvidenceLevel.UNTESTED:
            return self._not_tested(verdict, whole)
        return self._tested(verdict, whole)

    def _tested(self, verdict: LayeringVerdict, whole: LayeringCard) -> Square:
        picture, desk = whole.picture if self.pictures else None, self.desk
        said = _said(desk, whole, upper_first(whole.evidence))
        if picture is not None and not picture.picture.drawing:
            said = desk.text("grid.photograph", said=said, tile=picture.caption)
        return Square(
            kind="tested",
            href=whole.page,
            marks=self._marked(whole),
            picture=picture.picture.thumb.path if picture is not None else "",
            words=said,
        )

    def _not_tested(self, verdict: LayeringVerdict, whole: LayeringCard) -> Square:
        pair = (verdict.base.id, verdict.top.id)
        return Square(
            kind=self._try(pair, verdict.base, verdict.top),
            href=whole.page if has_page(verdict) else "",
            marks=Markup(""),
            picture="",
            words=_said(self.desk, whole, self._untested(pair, verdict.base, verdict.top)),
        )

    def _marked(self, whole: LayeringCard) -> Markup:
        names = (whole.food_mark, whole.movement_mark, whole.evidence_mark)
        if names not in self._marks:
            uses = "".join(f'<use href="#mark-{escape(name)}"/>' for name in names)
            self._marks[names] = Markup(f'<svg aria-hidden="true">{uses}</svg>')
        return self._marks[names]

    def _try(self, pair: Pair, base: Glaze, top: Glaze) -> str:
        if pair in self._planned:
            return "planned"
        return "shut" if self._why_shut(base, top) else "open"

    def _untested(self, pair: Pair, base: Glaze, top: Glaze) -> str:
        """`Untested`, and whether the class is to try it."""
        desk = self.desk
        if pair in self._planned:
            return desk.text("grid.untested_planned", tile=self._planned[pair])
        why = self._why_shut(base, top)
        return desk.text("grid.untested_shut", why=why) if why else upper_first(desk.words("evidence.untested.short"))

    def _why_shut(self, base: Glaze, top: Glaze) -> str:
        shut = next((self._shut[glaze.id] for glaze in (base, top) if glaze.id in self._shut), "")
        if shut or not base.rim_only:
            return shut
        return self.desk.text("grid.shut.rim_only_first", glaze=base.name.value)


def _said(desk: Desk, whole: LayeringCard, evidence: str) -> str:
    """All that a square shows, a line for each part."""
    to_do = f"{whole.to_do}, {whole.catch_plate}" if whole.catch_plate else whole.to_do
    return desk.text("grid.cell", over=whole.over, food=short_food(desk, whole), to_do=to_do, evidence=evidence)


def _planned(desk: Desk) -> Mapping[Pair, str]:
    """The pairs that the plan asks for, with the mark of the first tile of each."""
    plan = desk.edition.plan
    found: dict[Pair, str] = {}
    for tile in plan.tiles if plan is not None else ():
        found.setdefault(tile.candidate.pair, tile.mark)
    return found


def _shut(desk: Desk) -> Mapping[str, str]:
    """The glazes that are in no plan, by id, with why."""
    plan = desk.edition.plan
    left_out: tuple[tuple[Ground, Glaze | Clay], ...] = plan.left_out if plan is not None else ()
    return {
        each.id: desk.text(f"grid.shut.{ground.value.replace(' ', '_')}", glaze=each.name.value)
        for ground, each in left_out
        if isinstance(each, Glaze)
    }


def _showings(desk: Desk) -> tuple[Showing, ...]:
    food = ("never", *FOOD) if desk.never else FOOD
    legends: Mapping[str, tuple[Signed, ...]] = {
        "food": tuple(_food_sign(desk, key) for key in food),
        "running": tuple(_sign(key, key, _class(desk, key)) for key in MOVE_KEYS.values()),
        "evidence": tuple(
            _sign(key, key.replace("_", "-"), _level(desk, key)) for key in EVIDENCE_KEYS.values() if key != "untested"
        ),
    }
    return tuple(
        Showing(key=key, words=desk.text(f"grid.show.{key}"), legend=legend, chosen=key == "food")
        for key, legend in legends.items()
    )


def _class(desk: Desk, key: str) -> str:
    word, means = desk.words(f"movement.{key}.word"), desk.words(f"movement.{key}.means")
    return desk.text("grid.means", word=word, means=means)


def _level(desk: Desk, key: str) -> str:
    word = upper_first(desk.words(f"evidence.{key}.short"))
    return desk.text("grid.means", word=word, means=desk.words(f"evidence.{key}.means"))


def _food_sign(desk: Desk, key: str) -> Signed:
    words = upper_first(desk.words("food.key_lab_report" if key == "lab_report" else f"food.{key}.full"))
    return _sign(key, desk.words(f"food.{key}.mark"), words)


def _sign(key: str, mark: str, words: str) -> Signed:
    return Signed(key=key, mark=sign(mark), words=words)


def _tries(desk: Desk, kinds: list[str]) -> tuple[tuple[str, str], ...]:
    """The kinds of untested square that this grid has, with what each means."""
    return tuple((kind, desk.text(f"grid.try.{kind}")) for kind in ("open", "planned", "shut") if kind in kinds)
