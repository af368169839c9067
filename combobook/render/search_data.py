"""What the script finds layerings by and shows of them: glazes, clays, and every layering that has a page.

Words, signs and figures are finished here; the script only picks and places them.
"""

from __future__ import annotations

from combobook.colours import FAMILIES, family
from combobook.entries import NOT_KNOWN, Glaze
from combobook.render.cards import LayeringCard, off_words
from combobook.render.our_kiln import refused
from combobook.render.tables import Once, script, table
from combobook.render.views.colour_of import colour_of
from combobook.render.views.desk import Desk, has_page
from combobook.render.views.pieces import image, layering_card, short_food, upper_first
from combobook.verdicts import EvidenceLevel, LayeringVerdict, ToDo
from combobook.wording import EVIDENCE_KEYS

PATH = "script/layerings.js"
TO_DO_KEYS = {
    ToDo.LEAVE: "leave",
    ToDo.TOP_BAND: "top_band",
    ToDo.TOP_THIRD: "top_third",
    ToDo.NOT_ON_WALLS: "not_on_walls",
}
FOOD_KEYS = ("never", "lab_report", "labels_allow", "not_known", "keep_off")
EVIDENCE = tuple(EVIDENCE_KEYS[level] for level in sorted(EvidenceLevel, reverse=True))
_GLAZE = "id name mark looks off"
_LAYERING = "base top food toDo running trust family clays picture nickname looks tiles"


def glazes_by_name(desk: Desk) -> tuple[Glaze, ...]:
    """Every glaze of the book, in the order of the lists; its place there is its number in the data."""
    return tuple(sorted(desk.book.glazes.values(), key=lambda glaze: (glaze.name.value.casefold(), glaze.id)))


def layerings_data(desk: Desk) -> tuple[str, str]:
    """Path under site/ and text of the data file."""
    says: Once[str] = Once()
    signs: Once[tuple[str, ...]] = Once()
    clays = list(desk.book.clays)
    number = {glaze.id: n for n, glaze in enumerate(glazes_by_name(desk))}
    shown = sorted(
        (v for v in desk.edition.judged.layerings.values() if has_page(v)),
        key=lambda v: (-v.evidence.tiles, number[v.base.id], number[v.top.id]),
    )
    rows = [
        (number[v.base.id], number[v.top.id], *_found_by(desk, v, says, signs, clays), *_shown(desk, v, says))
        for v in shown
    ]
    told = {
        "glazes": table(_GLAZE, (_glaze(desk, glaze) for glaze in glazes_by_name(desk))),
        "over": desk.words("coats.over", base="{base}", top="{top}"),
        "page": "combinations/{top}-over-{base}.html",
        "families": list(FAMILIES),
        "clays": clays,
        "layerings": table(_LAYERING, rows),
        "signs": [list(each) for each in signs.listed],
        "says": says.listed,
    }
    return PATH, script("layerings", told)


def _glaze(desk: Desk, glaze: Glaze) -> tuple[object, ...]:
    looks = "" if glaze.looks.value is NOT_KNOWN else glaze.looks.value
    return glaze.id, glaze.name.value, glaze.mark.value, looks, off_words(glaze, desk.words)


def _found_by(
    desk: Desk, verdict: LayeringVerdict, says: Once[str], signs: Once[tuple[str, ...]], clays: list[str]
) -> tuple[object, ...]:
    """What a choice is held against: signs by number, the kind of instruction, colour family and clays by theirs."""
    whole, colour = layering_card(desk, verdict), colour_of(desk, verdict)
    on = {tile.clay.id for tile in verdict.tiles if tile.clay is not None and tile.fired}
    return (
        signs((whole.food_key, whole.food_mark, short_food(desk, whole))),
        TO_DO_KEYS[ToDo.NOT_ON_WALLS if refused(verdict, desk.book) else verdict.movement.to_do],
        signs((whole.movement_key, whole.movement_mark, whole.to_do, upper_first(whole.catch_plate))),
        signs((whole.evidence_key, whole.evidence_mark, upper_first(whole.evidence))),
        FAMILIES.index(family(colour.main)) if colour is not None else -1,
        [n for n, clay in enumerate(clays) if clay in on],
    )


def _shown(desk: Desk, verdict: LayeringVerdict, says: Once[str]) -> tuple[object, ...]:
    """What a result shows besides its signs, and the marks of its tiles."""
    whole = layering_card(desk, verdict)
    tiles = " ".join(dict.fromkeys(tile.tile.value for tile in verdict.tiles))
    looks = whole.looks or upper_first(whole.colour)
    return _picture(desk, whole, says), whole.nickname, says(looks), tiles


def _picture(desk: Desk, whole: LayeringCard, says: Once[str]) -> object:
    """Its files, size, alternative text and note; of an empty place why it is empty."""
    shown = image(whole.picture, desk)
    if shown is None:
        untested = whole.evidence_key == EVIDENCE_KEYS[EvidenceLevel.UNTESTED]
        return says(desk.text("tiles.not_made") if untested else desk.words("picture.none"))
    webp = 1 if shown.webp == shown.src.removesuffix(".jpg") + ".webp" else shown.webp
    fired, alt = f"{shown.fired} {shown.note}".strip(), _alt(desk, whole)
    return [shown.src, webp, shown.width, shown.height, says(alt), says(fired)]


def _alt(desk: Desk, whole: LayeringCard) -> str:
    """Shorter than on the layering's page, as thousands stand in one file: which tile, drawn or photographed."""
    assert whole.picture is not None
    tile = whole.picture.tile.tile.value if whole.picture.tile is not None else ""
    kind = "drawing" if whole.picture.picture.drawing else "photo"
    return desk.text(f"find.alt_{kind}", tile=tile) if tile else whole.picture.alt
