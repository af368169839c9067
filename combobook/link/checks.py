"""What only shows when entries are seen together: checks in the order in which they run."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Iterator

from combobook.ages import out_of_date
from combobook.book import Combination, TestTile
from combobook.cones import ConeRange
from combobook.entries import NOT_KNOWN, Clay, Glaze, LogRow, Status, Studio, Unknown, Written
from combobook.link.combinations import Linking, rim_only, share_no_cone
from combobook.link.names import error, place_order, warning
from combobook.past import slug
from combobook.problems import Place, Problem
from combobook.tile_marks import spoken


class Seen:
    """Everything the checks look at."""

    def __init__(
        self, link: Linking, studio: Studio, combinations: dict[str, Combination], tiles: tuple[TestTile, ...]
    ) -> None:
        self.link, self.studio, self.tiles = link, studio, tiles
        self.pairs = {(c.base.id, c.top.id) for c in combinations.values()} | _withheld_pairs(link)
        self.refused = link.entries.refused

    @property
    def day(self) -> dt.date | None:
        """The edition's date, None where nobody knows."""
        return None if self.studio.date.value is NOT_KNOWN else self.studio.date.value


def _withheld_pairs(link: Linking) -> set[tuple[str, str]]:
    names = link.glaze_names
    return {(b, t) for base, top in link.layerings_left_out for b in names.nearly(base) for t in names.nearly(top)}


def pairs_without_an_entry(seen: Seen) -> Iterator[Problem]:
    """Once a pair, at its first row; and what such a pair would be refused for in an entry."""
    told: set[tuple[str, ...]] = set()
    for tile in sorted(seen.tiles, key=lambda t: t.place):
        if tile.top is None or tile.layers in told or tile.layers in seen.pairs:
            continue
        told.add(tile.layers)
        over = f"{tile.top.name.value} over {tile.base.name.value}"
        stem = f"{tile.top.id}-over-{tile.base.id}"
        fix = f"write combinations/{stem}.md:\n---\nbase: {tile.base.id}\ntop: {tile.top.id}\non chart: no\n---"
        yield warning(tile.place, "pair-without-entry", f"{over} has tiles but no entry", fix)
        if rim_only(seen.link, tile.base):
            message = f"{over}: {tile.base.name.value} is for the rim only, or nobody knows ({tile.base.goes_on.at.at})"
            yield warning(tile.place, "rim-only-base-in-log", message, "keep such a layering off the chart")
        if share_no_cone(tile.base, tile.top):
            yield warning(
                tile.place, "no-shared-cone-in-log", f"{over}: the two labels share no cone",
                "keep such a layering off the chart",
            )  # fmt: skip


def tiles_before_the_kiln(seen: Seen) -> Iterator[Problem]:
    """A tile not fired yet must be of a clay that can take the studio's cone; a finding without a firing is odd."""
    rows = _rows_of(seen)
    forgotten, too_soft = set(seen.link.tiles_left_out), set(seen.link.tiles_left_out)
    for tile in sorted(seen.tiles, key=lambda t: t.place):
        key = tile.tile.value.upper()
        if tile.fired or any((row.place.at, "firing") in seen.refused for row in rows[key]):
            continue
        if tile.clay is not None and _too_soft(tile.clay.cone.value, seen.studio) and key not in too_soft:
            too_soft.add(key)
            yield _do_not_load(seen, tile, tile.clay, rows[key])
        if key not in forgotten and (tile.ran.value is not NOT_KNOWN or tile.looked_over):
            forgotten.add(key)
            cell = tile.ran if tile.ran.value is not NOT_KNOWN else tile.faults
            what = "`ran`" if cell is tile.ran else "`faults`"
            message = f"{what} is written for tile {tile.tile.value}, but no firing: it cannot count as evidence"
            yield warning(cell.place, "firing-forgotten", message, "write the firing's name in its row")


def _rows_of(seen: Seen) -> dict[str, list[LogRow]]:
    """The rows of each tile as they stand, in order."""
    found: dict[str, list[LogRow]] = {}
    for row in sorted(seen.link.entries.rows, key=lambda r: r.place):
        found.setdefault(row.tile.value.upper(), []).append(row)
    return found


def _do_not_load(seen: Seen, tile: TestTile, clay: Clay, rows: Iterable[LogRow]) -> Problem:
    message = (
        f"tile {tile.tile.value} is not fired yet, and its clay is for {_said(clay.cone.value)} in a firing to cone "
        f"{seen.studio.cone.value}; do not load: it can melt and take the shelf with it"
    )
    fix = "take the tile out of the load; if it has been fired, write its firing in this row"
    cell = next((row.clay for row in rows if isinstance(row.clay.value, str)), None)
    if cell is None:
        return error(tile.place, "do-not-load", message, fix)
    return error(cell.place, "do-not-load", message, fix, len(str(cell.value)))


def _too_soft(cone: ConeRange | Unknown, studio: Studio) -> bool:
    """True when the clay's range ends below the studio's cone."""
    return cone is not NOT_KNOWN and cone.high < studio.cone.value


def _said(cone: ConeRange | Unknown) -> str:
    if cone is NOT_KNOWN:
        return "a cone nobody knows"
    return f"cone {cone.low}" if cone.low == cone.high else f"cone {cone.low} to {cone.high}"


def clays_and_forms(seen: Seen) -> Iterator[Problem]:
    """Clays that cannot take the studio's cone; forms of which nobody says whether they hold food."""
    for clay in seen.link.entries.clays:
        cone, goal = clay.cone.value, seen.studio.cone.value
        if cone is not NOT_KNOWN and goal not in cone:
            why = "it can melt" if cone.high < goal else "it stays open and weak"
            message = f"{clay.name.value} is for {_said(cone)}, and the studio fires to cone {goal}: {why}"
            fix = "keep it out of the glaze kiln; it is left out of plans, tags and places"
            yield warning(clay.cone.place, "clay-cone", message, fix, 1)
    for form in seen.link.entries.forms:
        if form.holds_food.value is NOT_KNOWN and (form.name.place.path, "holds food") not in seen.refused:
            message = f"nobody says whether the {form.name.value} holds food: read as yes"
            yield warning(form.holds_food.place, "holds-food-not-known", message, "write `holds food: yes` or `no`")


def labels(seen: Seen) -> Iterator[Problem]:
    """The studio's cone on each label; labels and data sheets missing or not read for two years."""
    stands, leaning = seen.studio.labels_read, False
    for glaze in seen.link.entries.glazes:
        cone, goal = glaze.cone.value, seen.studio.cone.value
        if cone is not NOT_KNOWN and goal not in cone:
            message = f"the label of {glaze.name.value} says {_said(cone)}, and the studio fires to cone {goal}"
            fix = "the label comes first: ask the maker, or keep it off food and fire it on its own tile first"
            yield warning(glaze.cone.place, "cone-outside-label", message, fix)
        if glaze.status.value is Status.RETIRED:
            continue
        leans = glaze.label_read.value is NOT_KNOWN
        if not leans or (stands.value is NOT_KNOWN and ("studio.yaml", "labels read") not in seen.refused):
            yield from _aged(seen, glaze, glaze.label_read, "label read", "label", "label-not-read")
        yield from _aged(seen, glaze, glaze.data_sheet, "data sheet", "data sheet", "data-sheet-not-read")
        leaning = leaning or leans
    if leaning and stands.value is not NOT_KNOWN and out_of_date(stands.value, seen.day):
        message = f"the labels were read on {stands.value}, more than two years before this edition"
        yield warning(stands.place, "labels-not-read", message, "read the labels again and write the day", 10)


def _aged(
    seen: Seen, glaze: Glaze, written: Written[dt.date | Unknown], field: str, what: str, code: str
) -> Iterator[Problem]:
    if (glaze.name.place.path, field) in seen.refused:
        return
    if written.value is NOT_KNOWN:
        message = f"nobody says when the {what} of {glaze.name.value} was read"
    elif out_of_date(written.value, seen.day):
        message = (
            f"the {what} of {glaze.name.value} was read on {written.value}, more than two years before this edition"
        )
    else:
        return
    day = seen.day or dt.date(2026, 10, 14)
    yield warning(written.place, code, message, f"read it, and write `{field}: {day}` with that day's date")


def dates_to_come(seen: Seen) -> Iterator[Problem]:
    """A date later than the edition's is likely a slip."""
    if seen.day is None or not seen.studio.date.stated:
        return
    for name, written in dated(seen.link, seen.studio):
        if written.value is not NOT_KNOWN and written.value > seen.day:
            message = f"`{name}` is {written.value}, later than this edition's date {seen.day}"
            fix = "mend the date, or the edition's `date` in studio.yaml"
            yield warning(written.place, "date-after-edition", message, fix, 10)


def dated(link: Linking, studio: Studio | None) -> Iterator[tuple[str, Written[dt.date | Unknown]]]:
    """Every date the folder writes, with its field."""
    if studio is not None:
        yield "labels read", studio.labels_read
    for glaze in link.entries.glazes:
        yield "label read", glaze.label_read
        yield "data sheet", glaze.data_sheet
        yield "retest since", glaze.retest_since
    for firing in link.entries.firings:
        yield "date", firing.date
    for report in link.entries.reports:
        yield "date", report.date


def lots(seen: Seen) -> Iterator[Problem]:
    """A lot in the log says nothing where the glaze's entry writes none: once a glaze."""
    told: set[str] = set()
    for tile in sorted(seen.tiles, key=lambda t: t.place):
        for glaze, lot in ((tile.base, tile.base_lot), (tile.top, tile.top_lot)):
            if glaze is None or glaze.id in told or lot.value is NOT_KNOWN or glaze.lot.value is not NOT_KNOWN:
                continue
            if (glaze.name.place.path, "lot") in seen.refused:
                continue
            told.add(glaze.id)
            message = f"the log writes lot {lot.value} of {glaze.name.value}, whose entry has no `lot`"
            fix = f"write `lot: {lot.value}` in glazes/{glaze.id}.md if that is the jar in use"
            yield warning(lot.place, "lot-not-on-shelf", message, fix, len(str(lot.value)))


def unused_photos(seen: Seen) -> Iterator[Problem]:
    """Files in photos/ that nothing names."""
    withheld = {word for folder, word in seen.link.entries.withheld if folder == "photos"}
    for name in seen.link.photos:
        if name not in seen.link.photos_named | seen.link.withdrawn_photos and name.casefold() not in withheld:
            message = f"nobody uses photos/{name}"
            fix = "name it in a log row's or a combination's `photo`, or take it out of photos/"
            yield warning(Place(path=f"photos/{name}", line=1), "unused-photo", message, fix)


def withdrawn_and_still_there(seen: Seen) -> Iterator[Problem]:
    """A withdrawn tile's row and picture: nothing shows them, but they lie in the folder."""
    for row in seen.link.withdrawn_rows:
        photo = row.photo.value if isinstance(row.photo.value, str) else ""
        what = f"and photos/{photo} are" if photo in seen.link.photos else "is"
        message = f"the row of a withdrawn tile {what} still here"
        fix = "delete the row" + (f" and the file photos/{photo}" if photo in seen.link.photos else "")
        yield warning(row.tile.place, "withdrawn-still-there", message, fix, len(row.tile.value))


def closed_already(seen: Seen) -> Iterator[Problem]:
    """What is published under a closed edition's name would be taken for it."""
    name = seen.studio.edition
    if any(past.slug == slug(name.value) for past in seen.link.entries.editions):
        message = f"the edition {name.value} is closed: editions/{slug(name.value)}.json"
        fix = "write the next edition's name and date into studio.yaml; what changed since then is told from then on"
        yield warning(name.place, "edition-closed", message, fix, len(name.value))


def marks_spoken_alike(seen: Seen) -> Iterator[Problem]:
    """Marks that are said alike count as two tiles: a fault of one would not speak of the other."""
    first: dict[str, LogRow] = {}
    told: set[str] = set()
    for row in sorted(seen.link.entries.rows, key=lambda row: place_order(row.place)):
        mark = row.tile.value.upper()
        earlier = first.setdefault(spoken(mark), row)
        if earlier.tile.value.upper() != mark and mark not in told:
            told.add(mark)
            message = f"`{row.tile.value}` and the `{earlier.tile.value}` of {earlier.place.at} count as two tiles"
            fix = "if they are one, write its mark alike in every row; else give this one another mark"
            yield warning(row.tile.place, "marks-alike", message, fix, len(row.tile.value))


CHECKS: tuple[Callable[[Seen], Iterator[Problem]], ...] = (
    pairs_without_an_entry,
    tiles_before_the_kiln,
    clays_and_forms,
    labels,
    dates_to_come,
    lots,
    marks_spoken_alike,
    unused_photos,
    withdrawn_and_still_there,
    closed_already,
)
