"""What the book says of each glaze and each layering, in finished words; a template only places them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from hashlib import sha256

from markupsafe import Markup

from combobook.entries import NOT_KNOWN, Unknown
from combobook.pictures import PictureFile
from combobook.render import said
from combobook.render.cards import PictureView, best_picture, food_classes
from combobook.render.pot import drawn_pot
from combobook.render.print_profiles import COLOURS, UNIT_MM, print_scale
from combobook.render.profiles import pot_of, zones_of
from combobook.render.views.desk import Desk
from combobook.render.views.glaze import coats_known, coats_words, glaze_facts
from combobook.render.views.pieces import Fact, layering_card
from combobook.render.views.running import running_view
from combobook.render.views.trust import trust_view
from combobook.render.views.verdict import food_view
from combobook.verdicts import Band, GlazeVerdict, LayeringVerdict, MovementVerdict
from combobook.wording import no_band_sentence

_TALL, _WIDE = 20.0, 28.0
"""mm: the tallest pot of a row of forms, and the widest."""
ROW_MM = 178.0
"""mm: the width of a row of forms at least, on A4 and letter."""
_LINK = re.compile(r"</?a\b[^>]*>")
_PICTURE = re.compile(r'<span class="picture">.*?</span></span>', re.DOTALL)
_HEADING = re.compile(r"<(/?)h[1-6]>")
_SCROLL = re.compile(r'<div class="scroll"[^>]*>')


@dataclass(frozen=True, slots=True, kw_only=True)
class Files:
    """What a document shows, by the names it uses; filled as its entries are made."""

    pictures: dict[str, PictureFile] = field(default_factory=dict)
    drawings: dict[str, bytes] = field(default_factory=dict)

    def data(self) -> dict[str, bytes]:
        """Every file's bytes."""
        return {**{name: file.data for name, file in self.pictures.items()}, **self.drawings}


def together(parts: Iterable[Files]) -> Files:
    """The files of several parts of one document."""
    made = Files()
    for part in parts:
        made.pictures.update(part.pictures)
        made.drawings.update(part.drawings)
    return made


@dataclass(frozen=True, slots=True, kw_only=True)
class Ref:
    """A cross-reference: words, and the place whose page number follows them."""

    words: str
    anchor: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A picture by the name the sheet knows it by, with what is said beside it."""

    src: str
    alt: str
    caption: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceCell:
    """One form: drawn, with the words under it."""

    name: str
    src: str
    """Empty where nobody knows how tall the form is."""
    alt: str
    style: str
    """Lets every form of a row stand on one line."""
    says: str
    """Where the top may go, and why nowhere."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceNote:
    """What is said of one form, or of several of which the same is true."""

    names: str
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryView:
    """One entry of the book."""

    anchor: str
    name: str
    under: str
    notice: str
    shown: Shown | None
    no_picture: str
    food: str
    """The class of the frame and its mark."""
    food_words: str
    judged: str
    whys: tuple[str, ...]
    movement: str
    to_do: str
    steps: str
    trust: str
    places: tuple[PlaceCell, ...]
    notes: tuple[PlaceNote, ...]
    """Of every form of `places`, in their order."""
    facts: tuple[Fact, ...]
    prose: Markup
    refs: tuple[Ref, ...]
    tiles: tuple[str, ...]
    tiles_words: str


def glaze_anchor(glaze: str) -> str:
    """Where the entry of a glaze begins."""
    return f"g-{glaze}"


def layering_anchor(layering: str) -> str:
    """Where the entry of a layering begins."""
    return f"l-{layering}"


def glaze_entry(desk: Desk, verdict: GlazeVerdict, files: Files) -> EntryView:
    """The entry of one glaze; its picture is added to `files`."""
    glaze, coats = verdict.glaze, coats_words(desk, verdict.glaze)
    facts = tuple(Fact(name=f.name, value=_plain(f.value), note=f.note) for f in glaze_facts(desk, glaze))
    told = [] if isinstance(glaze.label_says.value, Unknown) else [_label(desk, glaze.label_says.value)]
    refs = [
        *(Ref(words=layering_card(desk, v).then, anchor=layering_anchor(v.id)) for v in desk.on.get(glaze.id, ())),
        *(Ref(words=layering_card(desk, v).over, anchor=layering_anchor(v.id)) for v in desk.over.get(glaze.id, ())),
    ]
    judged_as = desk.text("glaze.alone", coats=coats) if coats_known(glaze) else ""
    return _entry(
        desk,
        verdict,
        files,
        anchor=glaze_anchor(glaze.id),
        name=glaze.name.value,
        under=desk.words("book.glaze_under", mark=glaze.mark.value, coats=coats),
        notice="",
        looks="" if isinstance(glaze.looks.value, Unknown) else glaze.looks.value,
        coats=judged_as,
        facts=(*told, *facts, *_handling(desk, verdict)),
        prose=_prose(desk.prose(glaze.body, "", under=2)),
        refs=tuple(refs),
    )


def layering_entry(desk: Desk, verdict: LayeringVerdict, files: Files) -> EntryView:
    """The entry of one layering, with or without a file of its own; its picture is added to `files`."""
    card, words = layering_card(desk, verdict), desk.words
    reverse = desk.edition.judged.layerings.get((verdict.top.id, verdict.base.id))
    refs = [
        Ref(words=words("book.first", glaze=card.base), anchor=glaze_anchor(verdict.base.id)),
        Ref(words=words("book.top", glaze=card.top), anchor=glaze_anchor(verdict.top.id)),
    ]
    if reverse is not None and (reverse.entry is not None or reverse.tiles):
        refs.append(Ref(words=words("book.reverse"), anchor=layering_anchor(reverse.id)))
    return _entry(
        desk,
        verdict,
        files,
        anchor=layering_anchor(verdict.id),
        name=card.over,
        under=" · ".join(part for part in (f"{card.base_mark} + {card.top_mark}", card.coats, card.nickname) if part),
        notice=card.on_shelf,
        looks=" · ".join(part for part in (card.looks, card.colour) if part),
        coats=card.coats if verdict.coats else "",
        facts=(),
        prose=_prose(desk.prose(verdict.entry.body, "", under=2)) if verdict.entry is not None else Markup(""),
        refs=tuple(refs),
    )


def _entry(
    desk: Desk, verdict: GlazeVerdict | LayeringVerdict, files: Files, *,
    anchor: str, name: str, under: str, notice: str, looks: str, coats: str,
    facts: tuple[Fact, ...], prose: Markup, refs: tuple[Ref, ...],
) -> EntryView:  # fmt: skip
    food, running = food_view(desk, verdict, coats), running_view(desk, verdict)
    trust = trust_view(desk, verdict.evidence)
    marks = tuple(dict.fromkeys(tile.tile.value for tile in verdict.tiles))
    picture = best_picture(desk.edition, verdict)
    places = tuple(_place(desk, band, verdict.movement, files.drawings) for band in verdict.bands)
    return EntryView(
        anchor=anchor,
        name=name,
        under=f"{under} · {looks}" if looks else under,
        notice=notice,
        shown=_shown(picture, files),
        no_picture=desk.words("picture.none"),
        food=food_classes(food.sign.key, desk.words),
        food_words=food.sign.words,
        judged=" ".join(part for part in (food.judged, food.clays) if part),
        whys=tuple(why.says for why in (*food.whys, *food.more)),
        movement=f"m-{running.sign.key.replace('_', '-')}",
        to_do=running.sign.words,
        steps=" ".join((*running.steps, running.runs)),
        trust=": ".join(part for part in (trust.sign.words, ", ".join(trust.counts)) if part) + _looked(trust.looked),
        places=places,
        notes=_notes(desk, places),
        facts=facts,
        prose=prose,
        refs=refs,
        tiles=marks,
        tiles_words=desk.words("book.tiles", tiles=desk.words.listed(marks)) if marks else "",
    )


def _looked(words: str) -> str:
    return f". {words}" if words else ""


def _label(desk: Desk, says: str) -> Fact:
    quoted = f"\N{LEFT DOUBLE QUOTATION MARK}{says}\N{RIGHT DOUBLE QUOTATION MARK}"
    return Fact(name=desk.words("book.label_says"), value=quoted)


def _handling(desk: Desk, verdict: GlazeVerdict) -> Iterable[Fact]:
    lines = [line.value for line in verdict.glaze.handling]
    whole = "; ".join(line.rstrip(".;") for line in lines)
    return (Fact(name=desk.words("book.handling"), value=whole),) if whole else ()


def _shown(picture: PictureView | None, files: Files) -> Shown | None:
    if picture is None:
        return None
    file = picture.picture.card
    files.pictures[file.path] = file
    return Shown(src=file.path, alt=picture.alt, caption=picture.caption)


def _place(desk: Desk, band: Band, moves: MovementVerdict, drawings: dict[str, bytes]) -> PlaceCell:
    """The form with the band's figures, drawn once however many entries show the same."""
    key = ("book place", (band, moves.off_the_tile))
    if key not in desk.kept:
        desk.kept[key] = (_cell(desk, band, moves), _drawn(desk, band)[0])
    cell: PlaceCell
    cell, drawing = desk.kept[key]
    if drawing:
        drawings[cell.src] = drawing
    return cell


def _notes(desk: Desk, places: Iterable[PlaceCell]) -> tuple[PlaceNote, ...]:
    """What is true of several forms is said once: six narrow columns of the same words are not read."""
    names: dict[str, list[str]] = {}
    for place in places:
        names.setdefault(place.says, []).append(place.name)
    return tuple(PlaceNote(names=desk.words.listed(some), says=says) for says, some in names.items())


def _cell(desk: Desk, band: Band, moves: MovementVerdict) -> PlaceCell:
    (drawing, tall), outside = _drawn(desk, band), said.outside(band, desk.words)
    why_not = tuple(no_band_sentence(found, desk.words) for found in band.none)
    return PlaceCell(
        name=band.form.name.value,
        src=f"pots/{sha256(drawing).hexdigest()[:16]}.svg" if drawing else "",
        style=f"margin-top:{_row(desk) - tall:.2f}mm" if drawing else "",
        alt=f"{band.form.name.value}: {outside}",
        says=" ".join(part for part in (outside, *said.inside_of(band, moves, desk.words), *why_not) if part),
    )


def _drawn(desk: Desk, band: Band) -> tuple[bytes, float]:
    """The pot alone as an SVG file, for its labels stand under it, and how tall it is in mm; empty without a height."""
    form = band.form
    if form.height.value is NOT_KNOWN:
        return b"", 0.0
    pot, zones = pot_of(form, _scale(desk), small=True), zones_of(band, form, desk.words)
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{pot.width * UNIT_MM:.2f}mm" '
        f'height="{pot.tall * UNIT_MM:.2f}mm" viewBox="0 0 {pot.width:.1f} {pot.tall:.1f}">'
        f"{drawn_pot(pot, band, zones, 'pot', COLOURS)}</svg>"
    )
    return svg.encode(), pot.tall * UNIT_MM


def _scale(desk: Desk) -> float:
    """Units of the drawing for a mm of a form: the largest at which all of them fit into one row."""
    forms = desk.book.forms.values()
    cell = ROW_MM / max(1, len(forms))
    return print_scale(forms, tall_mm=_TALL, wide_mm=min(_WIDE, cell - 9)) / UNIT_MM


def _row(desk: Desk) -> float:
    """How tall the tallest form of a row is drawn, in mm."""
    known = (form for form in desk.book.forms.values() if form.height.value is not NOT_KNOWN)
    return max((pot_of(form, _scale(desk), small=True).tall * UNIT_MM for form in known), default=0.0)


def _plain(value: str | Markup) -> str:
    """A fact without its links: the book has page numbers instead."""
    return Markup(value).striptags() if isinstance(value, Markup) else value


def _prose(html: Markup) -> Markup:
    """An entry's own text without links and pictures, its headings as bold lines: the entry's heading stands above."""
    text = _LINK.sub("", _PICTURE.sub("", str(html)))
    text = _HEADING.sub(lambda m: "</b></p>" if m[1] else "<p><b>", _SCROLL.sub("<div>", text))
    return Markup(text)
