"""The row of an entry's forms, each drawn with where the top may go, and what is said of them beneath."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from hashlib import sha256

from combobook.entries import NOT_KNOWN
from combobook.render import said
from combobook.render.book.paper import letters_size
from combobook.render.letters import width
from combobook.render.pot import drawn_pot
from combobook.render.print_profiles import COLOURS, UNIT_MM, print_scale
from combobook.render.profiles import pot_of, zones_of
from combobook.render.views.desk import Desk
from combobook.verdicts import Band, MovementVerdict
from combobook.wording import no_band_sentence

_TALL, _WIDE = 20.0, 28.0
"""mm: the tallest pot of a row of forms, and the widest."""
_ROW = 177.6
"""mm: the width of a row of forms, on A4 and letter."""
_OFF = 0.01
"""mm that a pot's line may run beside its own, to have half as many points: a fifth of a dot at 500 dots an inch."""
_BETWEEN = 2.5
"""mm: between two names at least."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceCell:
    """One form, drawn."""

    name: str
    src: str
    """Empty where nobody knows how tall the form is."""
    alt: str
    says: str
    """Where the top may go, and why nowhere."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceNote:
    """What is said of one form, or of several of which the same is true."""

    names: str
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Places:
    """Every form of a studio with one layering's bands."""

    cells: tuple[PlaceCell, ...]
    """Each as wide as the next; those that are drawn first."""
    names: tuple[str, ...]
    """Under them: all in one text with tabs between, which is set quicker, or where one is too wide for that, each."""
    notes: tuple[PlaceNote, ...]
    """Of every form."""


def places(desk: Desk, bands: Sequence[Band], moves: MovementVerdict, drawings: dict[str, bytes]) -> Places:
    """The row of these bands' forms; the drawings it shows are added to `drawings`."""
    cells = [_place(desk, band, moves, drawings) for band in bands]
    row = sorted(cells, key=lambda cell: not cell.src)
    names = [cell.name for cell in row]
    room = place_mm(desk) - _BETWEEN
    fits = all(width(name, letters_size(), bold=True) <= room for name in names)
    return Places(cells=tuple(row), names=(" \t".join(names),) if fits else tuple(names), notes=_notes(desk, cells))


def place_mm(desk: Desk) -> float:
    """How wide a form's part of the row is, in mm."""
    return _ROW / max(1, len(desk.book.forms))


def _place(desk: Desk, band: Band, moves: MovementVerdict, drawings: dict[str, bytes]) -> PlaceCell:
    """The form with the band's figures, drawn once however many entries show the same."""
    key = ("book place", (band, moves.off_the_tile))
    if key not in desk.kept:
        desk.kept[key] = _cell(desk, band, moves)
    cell: PlaceCell
    cell, drawing = desk.kept[key]
    if drawing:
        drawings[cell.src] = drawing
    return cell


def _notes(desk: Desk, cells: Iterable[PlaceCell]) -> tuple[PlaceNote, ...]:
    """What is true of several forms is said once: six narrow columns of the same words are not read."""
    names: dict[str, list[str]] = {}
    for cell in cells:
        names.setdefault(cell.says, []).append(cell.name)
    return tuple(PlaceNote(names=desk.words.listed(some), says=says) for says, some in names.items())


def _cell(desk: Desk, band: Band, moves: MovementVerdict) -> tuple[PlaceCell, bytes]:
    drawing, outside = _drawn(desk, band), said.outside(band, desk.words)
    why_not = tuple(no_band_sentence(found, desk.words) for found in band.none)
    cell = PlaceCell(
        name=band.form.name.value,
        src=f"pots/{sha256(drawing).hexdigest()[:16]}.svg" if drawing else "",
        alt=f"{band.form.name.value}: {outside}",
        says=" ".join(part for part in (outside, *said.inside_of(band, moves, desk.words), *why_not) if part),
    )
    return cell, drawing


def _drawn(desk: Desk, band: Band) -> bytes:
    """The pot as an SVG file; empty without a height. Drawings of a row are of one size: all pots stand on its foot."""
    form = band.form
    if form.height.value is NOT_KNOWN:
        return b""
    pot = replace(pot_of(form, _scale(desk), small=True), off=_OFF / UNIT_MM)
    zones = zones_of(band, form, desk.words)
    wide, tall = place_mm(desk), _row(desk)
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide:.2f}mm" height="{tall:.2f}mm" '
        f'viewBox="0 {pot.tall - tall / UNIT_MM:.1f} {wide / UNIT_MM:.1f} {tall / UNIT_MM:.1f}">'
        f"{drawn_pot(pot, band, zones, 'pot', COLOURS)}</svg>"
    )
    return svg.encode()


def _scale(desk: Desk) -> float:
    """Units of the drawing for a mm of a form: the largest at which all of them fit into one row."""
    return print_scale(desk.book.forms.values(), tall_mm=_TALL, wide_mm=min(_WIDE, place_mm(desk) - 9)) / UNIT_MM


def _row(desk: Desk) -> float:
    """How tall the tallest form of a row is drawn, in mm."""
    known = (form for form in desk.book.forms.values() if form.height.value is not NOT_KNOWN)
    return max((pot_of(form, _scale(desk), small=True).tall * UNIT_MM for form in known), default=0.0)
