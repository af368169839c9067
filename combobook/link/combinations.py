"""Combination entries and lab reports: their names become objects."""

from __future__ import annotations

from collections.abc import Mapping

from combobook.book import Combination, LabReport
from combobook.entries import (
    NOT_KNOWN,
    Clay,
    CombinationEntry,
    Entries,
    Firing,
    Glaze,
    LabReportEntry,
    LogRow,
    Status,
    Unknown,
    Written,
)
from combobook.link.names import Names, error, place_order, warning
from combobook.measures import Coats
from combobook.problems import Problem
from combobook.spelling import did_you_mean


class Linking:
    """What names are looked up in, and the problems found so far."""

    def __init__(self, entries: Entries, photos: tuple[str, ...], glazes: Names, clays: Names, firings: Names) -> None:
        self.entries, self.photos, self._photos = entries, photos, frozenset(photos)
        self.glaze_names, self.clay_names, self.firing_names = glazes, clays, firings
        self.glazes: Mapping[str, Glaze] = {g.id: g for g in entries.glazes}
        self.clays: Mapping[str, Clay] = {c.id: c for c in entries.clays}
        self.firings: Mapping[str, Firing] = {f.id: f for f in entries.firings}
        self.doubled: frozenset[str] = frozenset()
        self.problems: list[Problem] = []
        self.photos_named: set[str] = set()
        self.withdrawn_rows: tuple[LogRow, ...] = ()
        self.withdrawn_photos: frozenset[str] = frozenset()
        """Pictures of withdrawn tiles: as if nobody had named them, wherever they are named."""
        self.layerings_left_out: list[tuple[str, str]] = list(entries.withheld_layerings)
        """(base, top) as written in entries that have a problem of their own: such a pair has an entry."""
        self.tiles_left_out: set[str] = {word.upper() for folder, word in entries.withheld if folder == "tiles"}
        """Tiles of which a row has a problem of its own: what the others lack may stand there."""

    def glaze(self, word: Written[str]) -> Glaze | None:
        found = self.glaze_names.find(word, self.entries, self.doubled, self.problems)
        return self.glazes[found] if found else None

    def clay(self, word: Written[str]) -> Clay | None:
        found = self.clay_names.find(word, self.entries, self.doubled, self.problems)
        return self.clays[found] if found else None

    def photo(self, word: Written[str | Unknown]) -> Written[str | Unknown]:
        """Notes a photo as used; not known, with a problem, where photos/ has no such file."""
        name = word.value
        if isinstance(name, str) and name in self.withdrawn_photos:
            return Written(value=NOT_KNOWN, place=word.place, field_line=word.field_line)
        if not isinstance(name, str) or name in self._photos:
            self.photos_named.update([name] if isinstance(name, str) else ())
            return word
        if ("photos", name.casefold()) not in self.entries.withheld:
            fix = did_you_mean(name, self.photos) or "put the file into photos/, or mend its name"
            self.problems.append(error(word.place, "unknown-photo", f"no file photos/{name}", fix, len(name)))
        return Written(value=NOT_KNOWN, place=word.place, field_line=word.field_line)


def combinations(link: Linking) -> dict[str, Combination]:
    """The layerings by id, sorted; a doubled one keeps the earlier entry."""
    found: dict[str, Combination] = {}
    for entry in sorted(link.entries.combinations, key=lambda c: place_order(c.base.place)):
        base, top = link.glaze(entry.base), link.glaze(entry.top)
        photo = link.photo(entry.photo)
        if base is None or top is None:
            link.layerings_left_out.append((entry.base.value, entry.top.value))
            continue
        if _same(link, entry.top, base, top):
            continue
        combination = _combination(entry, base, top, photo)
        earlier = found.setdefault(combination.id, combination)
        if earlier is not combination:
            message = f"{top.name.value} over {base.name.value} already has an entry: {earlier.base_place.at}"
            fix = "keep one entry for each order; the other order, base and top exchanged, is another layering"
            link.problems.append(error(entry.base.place, "doubled-layering", message, fix, len(entry.base.value)))
            continue
        link.problems.extend(_on_the_chart(link, entry, combination))
    return dict(sorted(found.items()))


def _same(link: Linking, word: Written[str], base: Glaze, top: Glaze) -> bool:
    if base.id != top.id:
        return False
    message = f"base and top are both {base.name.value}: a layering has two different glazes"
    fix = "name another top; more coats of one glaze alone need no entry, only log rows without a top"
    link.problems.append(error(word.place, "base-is-top", message, fix, len(word.value)))
    return True


def _combination(entry: CombinationEntry, base: Glaze, top: Glaze, photo: Written[str | Unknown]) -> Combination:
    return Combination(
        id=f"{top.id}-over-{base.id}",
        path=entry.path,
        base=base,
        top=top,
        base_place=entry.base.at,
        coats=entry.coats,
        name=entry.name,
        looks=entry.looks,
        photo=photo,
        on_chart=entry.on_chart.value is not False,
        keep_off_food=entry.keep_off_food,
        body=entry.body,
    )


def share_no_cone(base: Glaze, top: Glaze) -> bool:
    """True when both label ranges are known and no cone lies in both."""
    low, high = base.cone.value, top.cone.value
    return low is not NOT_KNOWN and high is not NOT_KNOWN and not low.shares_a_cone_with(high)


def rim_only(link: Linking, glaze: Glaze) -> bool:
    """Rim only, or nobody knows; not where the word was refused and has its problem already."""
    return glaze.rim_only and (glaze.name.place.path, "goes on") not in link.entries.refused


def _on_the_chart(link: Linking, entry: CombinationEntry, made: Combination) -> list[Problem]:
    if not made.on_chart:
        return []
    base, top = made.base, made.top
    found = []
    if rim_only(link, base):
        said = "is for the rim only" if base.goes_on.value is not NOT_KNOWN else "may be for the rim only: nobody knows"
        message = f"{base.name.value} {said}, so it cannot go on first under a whole wall ({base.goes_on.at.at})"
        found.append(
            error(
                entry.base.place, "rim-only-base", message, "write `on chart: no` in this entry", len(entry.base.value)
            )
        )
    if share_no_cone(base, top):
        message = (
            f"the labels share no cone: {base.name.value} is for {_range(base)}, {top.name.value} for {_range(top)}"
        )
        found.append(
            error(
                entry.top.place, "no-shared-cone", message, "write `on chart: no` in this entry", len(entry.top.value)
            )
        )
    for word, glaze in ((entry.base, base), (entry.top, top)):
        if glaze.status.value in (Status.OUT, Status.RETIRED):
            message = f"{glaze.name.value} is {glaze.status.value.value} and this layering is on the chart"
            fix = "write `on chart: no` in this entry, or mend the glaze's `status`"
            found.append(warning(word.place, "off-shelf-on-chart", message, fix, len(word.value)))
    return found


def _range(glaze: Glaze) -> str:
    label = glaze.cone.value
    return "cone not known" if label is NOT_KNOWN else f"cone {label.low} to {label.high}"


def reports(link: Linking) -> tuple[LabReport, ...]:
    """The lab reports whose glazes and clay are known, by file name."""
    made = (_report(link, entry) for entry in sorted(link.entries.reports, key=lambda r: r.id))
    return tuple(report for report in made if report is not None)


def _report(link: Linking, entry: LabReportEntry) -> LabReport | None:
    words = [w for w in ((entry.glaze,) if entry.glaze is not None else (entry.base, entry.top)) if w is not None]
    layers = [link.glaze(word) for word in words]
    clay_word = entry.clay
    clay = link.clay(_text(clay_word)) if isinstance(clay_word.value, str) else None
    known = tuple(glaze for glaze in layers if glaze is not None)
    if len(known) < len(words) or (isinstance(clay_word.value, str) and clay is None):
        return None
    if len(known) == 2 and _same(link, words[1], *known):
        return None
    coats = entry.coats.value
    return LabReport(
        id=entry.id,
        path=entry.path,
        layers=known,
        layers_place=words[0].at,
        ware=entry.ware,
        limits=entry.limits,
        coats=(coats.base, coats.top)
        if isinstance(coats, Coats)
        else (coats,)
        if isinstance(coats, int)
        else NOT_KNOWN,
        clay=clay,
        cone=entry.cone.value,
        lead=entry.lead,
        cadmium=entry.cadmium,
        method=entry.method,
        lab=entry.lab,
        body=entry.body,
    )


def _text(word: Written[object]) -> Written[str]:
    """A written text as such. Raises TypeError where the value is none."""
    if not isinstance(word.value, str):
        raise TypeError(f"no text at {word.place.at}")
    return Written(value=word.value, place=word.place, field_line=word.field_line, stated=word.stated)
