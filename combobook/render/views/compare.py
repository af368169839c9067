"""Tiles beside each other: up to four at one scale, each with what was seen and what is judged of its surface.

Which tiles stand there is in the address, so the page is filled by the script from the data here; without it the page
leads to the sheets of tiles that are always there.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from combobook.book import TestTile
from combobook.entries import NOT_KNOWN
from combobook.pictures import PictureFile
from combobook.render import said
from combobook.render.cards import measured, off_aim, tile_coats, tile_fired, tile_picture
from combobook.render.cautions import KIND, cautions, too_few
from combobook.render.chart.content import as_people_sort
from combobook.render.contact.placed import TILE_MM, Placed, placed
from combobook.render.our_kiln import refused, to_do, to_do_key
from combobook.render.tables import Once, script, table
from combobook.render.views.desk import Desk
from combobook.render.views.page import Page
from combobook.render.views.pieces import Signed, sign, upper_first
from combobook.render.views.tiles import tile_href
from combobook.render.views.verdict import Verdict
from combobook.verdicts import FoodVerdict
from combobook.wording import (
    EVIDENCE_KEYS,
    colour_words,
    evidence_words,
    food_in_full,
    food_key,
    food_lines,
)

PATH, DATA_PATH = "compare.html", "script/tiles.js"
WINDOW = f"0 0 {TILE_MM[0]} {TILE_MM[1]}"
"""A picture's window in mm of the tile."""
FACTS = ("coats", "clay", "fired", "ran", "faults", "colour")
_COLUMNS = "id mark name page other food running trust care facts note picture"


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """Words with the name of their mark; `key` names the frame."""

    key: str
    mark: str
    words: str

    @property
    def signed(self) -> Signed:
        """The same as pages set it."""
        return Signed(key=self.key, mark=sign(self.mark), words=self.words)


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """One tile at one coat count as it stands beside others."""

    id: str
    """Its name in the address: the mark, and the coats where the mark alone would fit several."""
    mark: str
    name: str
    """`Pond Lantern over Ferry Rust`, or the one glaze."""
    page: str
    """Of its glazes, relative to site/."""
    other: str
    """That of the other order, whether or not it is there; empty for one glaze."""
    food: Told
    """Of exactly these coats on this clay."""
    running: Told
    """Of the layering, whatever its coats."""
    trust: Told
    """Of exactly these coats on this clay."""
    care: str
    """What its verdict on food does not speak of, where that lets something touch food."""
    facts: tuple[str, ...]
    """What is known of it, in the order of FACTS; empty where there is nothing to say."""
    note: str
    """That its picture is a drawing, or how its colours were seen, and whether it is at the page's scale."""
    file: PictureFile
    placed: Placed
    alt: str


def pages(desk: Desk) -> Iterator[Page]:
    """The one page."""
    view: dict[str, object] = {
        "window": WINDOW,
        "facts": tuple(desk.text(f"beside.facts.{name}") for name in FACTS),
        "piece": desk.words("food.piece"),
    }
    yield Page(path=PATH, template="compare.html", title=desk.text("beside.title"), view=view, nav="")


def href_of(desk: Desk, tile: TestTile) -> str:
    """The page with this tile put beside those that are there, relative to site/."""
    return f"{PATH}#add={tile_name(desk, tile)}"


def tile_name(desk: Desk, tile: TestTile) -> str:
    """`B117`; `B117-2-1` where that tile has rows at several coat counts."""
    key = ("coat counts", "")
    if key not in desk.kept:
        marks: dict[str, set[tuple[int, ...]]] = {}
        for each in desk.book.tiles:
            marks.setdefault(each.tile.value, set()).add(each.coats)
        desk.kept[key] = marks
    one = len(desk.kept[key][tile.tile.value]) == 1
    return tile.tile.value if one else "-".join((tile.tile.value, *map(str, tile.coats)))


def beside(desk: Desk, tile: TestTile, size: str = "card") -> Beside | None:
    """A fired tile with a picture, with all that must stand beside it; None without either."""
    key = (f"beside {size}", tile.place)
    if key not in desk.kept:
        desk.kept[key] = _beside(desk, tile, size)
    made: Beside | None = desk.kept[key]
    return made


def _beside(desk: Desk, tile: TestTile, size: str) -> Beside | None:
    shown, verdict = tile_picture(desk.edition, tile), _verdict(desk, tile)
    if shown is None or not tile.fired:
        return None
    words, at = desk.words, placed(shown.picture)
    drawn = shown.picture.drawing
    notes = (words("picture.drawing") if drawn else "", "" if at.to_scale else desk.text("beside.no_scale"))
    return Beside(
        id=tile_name(desk, tile),
        mark=tile.tile.value,
        name=_name(desk, tile),
        page=tile_href(tile).partition("#")[0],
        other=f"combinations/{tile.base.id}-over-{tile.top.id}.html" if tile.top is not None else "",
        food=_food(desk, tile, verdict),
        running=_running(desk, verdict),
        trust=_trust(desk, tile, verdict),
        care=_care(desk, tile, verdict),
        facts=_facts(desk, tile),
        note=" ".join(note for note in notes if note),
        file=shown.picture.sizes[size],
        placed=at,
        alt=words("contact.alt_drawing" if drawn else "contact.alt_photo", tile=tile.tile.value),
    )


def _verdict(desk: Desk, tile: TestTile) -> Verdict:
    judged = desk.edition.judged
    return judged.glazes[tile.base.id] if tile.top is None else judged.layerings[tile.base.id, tile.top.id]


def _name(desk: Desk, tile: TestTile) -> str:
    if tile.top is None:
        return tile.base.name.value
    return desk.words("coats.over", base=tile.base.name.value, top=tile.top.name.value)


def _surface_food(tile: TestTile, verdict: Verdict) -> FoodVerdict:
    """Of these coats on this clay; a tile of a surface that is not judged by itself has that of all."""
    return next(
        (each.food for each in verdict.surfaces if each.coats == tile.coats and each.clay is tile.clay), verdict.food
    )


def _care(desk: Desk, tile: TestTile, verdict: Verdict) -> str:
    if _surface_food(tile, verdict).level < KIND:
        return ""
    own = too_few(tile.coats, verdict, desk.words) if tile.top is not None and not desk.never else ()
    every = cautions(verdict, desk.book, desk.edition.judged, desk.words)
    return " ".join(dict.fromkeys((*every, *own)))


def _food(desk: Desk, tile: TestTile, verdict: Verdict) -> Told:
    found = _surface_food(tile, verdict)
    key, one = food_key(found, desk.never), tile.top is None
    if key == "lab_report":
        words = food_in_full(found, desk.never, desk.words, one)  # never the bare two words
    else:
        words = " ".join(food_lines(found, desk.never, desk.words, one))
    return Told(key=key, mark=desk.words(f"food.{key}.mark"), words=words)


def _running(desk: Desk, verdict: Verdict) -> Told:
    told, (key, mark) = to_do(verdict, desk.book, desk.words), to_do_key(verdict, desk.book)
    catch = verdict.movement.catch_plate and not refused(verdict, desk.book)
    words = f"{told}, {desk.words('to_do.catch_plate')}" if catch else told
    return Told(key=key, mark=mark, words=words)


def _trust(desk: Desk, tile: TestTile, verdict: Verdict) -> Told:
    evidence = next(
        (each.evidence for each in verdict.surfaces if each.coats == tile.coats and each.clay is tile.clay),
        verdict.evidence,
    )
    key = EVIDENCE_KEYS[evidence.level]
    return Told(key=key, mark=key.replace("_", "-"), words=upper_first(evidence_words(evidence, desk.words)))


def _facts(desk: Desk, tile: TestTile) -> tuple[str, ...]:
    words, fire = desk.words, desk.edition.judged.tile_fire.get(tile.place)
    picture = desk.edition.pictures[str(tile.photo.value)]
    off = off_aim(fire, words)
    colour = "" if picture.colour is None else upper_first(colour_words(picture.colour, words))
    return (
        tile_coats(tile, words),
        words("tile.clay", clay=tile.clay.name.value) if tile.clay else words("tile.no_clay"),
        f"{tile_fired(tile, words)}, {off}" if off else tile_fired(tile, words),
        _ran(desk, tile),
        said.faults(tile, words),
        f"{colour} ({words(f'picture.measured.{measured(picture)}')})" if colour else "",
    )


def _ran(desk: Desk, tile: TestTile) -> str:
    """How far it ran; of one that did not stand upright, that this says nothing."""
    ran = said.ran(tile, desk.words)
    if tile.ran.value is NOT_KNOWN or tile.upright:
        return ran
    return desk.text("beside.not_upright", ran=ran)


def tiles_data(desk: Desk) -> tuple[str, str]:
    """Path under site/ and text of the data file: every fired tile that has a picture, in the order of their marks."""
    says: Once[str] = Once()
    signs: Once[tuple[str, str, str]] = Once()
    windows: Once[tuple[float, ...]] = Once()

    def row(each: Beside) -> tuple[object, ...]:
        at = each.placed
        window = windows((at.left, at.top, at.width, at.height))
        told = (signs((one.key, one.mark, one.words)) for one in (each.food, each.running, each.trust))
        facts, picture = [says(fact) for fact in each.facts], [each.file.path, window, says(each.alt)]
        return (
            each.id,
            each.mark,
            says(each.name),
            says(each.page),
            says(each.other),
            *told,
            says(each.care),
            facts,
            says(each.note),
            picture,
        )

    tiles = sorted(desk.book.tiles, key=lambda tile: (as_people_sort(tile.tile.value), tile.coats))
    shown = [each for tile in tiles if (each := beside(desk, tile)) is not None]
    told = {
        "tiles": table(_COLUMNS, (row(each) for each in shown)),
        "says": says.listed,
        "signs": [list(each) for each in signs.listed],
        "windows": [list(each) for each in windows.listed],
    }
    return DATA_PATH, script("tiles", told)
