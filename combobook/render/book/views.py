"""What the book says of each glaze and each layering, in finished words; a template only places them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field

from markupsafe import Markup

from combobook.entries import Unknown
from combobook.pictures import PictureFile
from combobook.render.book.places import Places, places
from combobook.render.cards import PictureView, best_picture, food_classes
from combobook.render.our_kiln import shown
from combobook.render.views.desk import Desk
from combobook.render.views.glaze import coats_known, coats_words, glaze_facts
from combobook.render.views.pieces import Fact, layering_card
from combobook.render.views.running import running_view
from combobook.render.views.trust import trust_view
from combobook.render.views.verdict import food_view, stop_words
from combobook.verdicts import GlazeVerdict, LayeringVerdict

_LINK = re.compile(r"</?a\b[^>]*>")
_PICTURE = re.compile(r'<span class="picture">.*?</span></span>', re.DOTALL)
_HEADING = re.compile(r"<(/?)h[1-6]>")
_EMPTY = re.compile(r"<(br|hr)\s*/?>")
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
    cautions: tuple[str, ...]
    """What the verdict on food does not speak of."""
    whys: tuple[str, ...]
    movement: str
    to_do: str
    steps: str
    trust: str
    places: Places
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
    return EntryView(
        anchor=anchor,
        name=name,
        under=f"{under} · {looks}" if looks else under,
        notice=" ".join(said for said in (stop_words(desk, verdict), notice) if said),
        shown=_shown(picture, files),
        no_picture=desk.words("picture.none"),
        food=food_classes(food.sign.key, desk.words),
        food_words=food.sign.words,
        judged=" ".join(part for part in (food.judged, food.clays) if part),
        cautions=food.cautions,
        whys=tuple(why.says for why in (*food.whys, *food.more)),
        movement=f"m-{running.sign.key.replace('_', '-')}",
        to_do=running.sign.words,
        steps=" ".join((*running.steps, running.runs)),
        trust=": ".join(part for part in (trust.sign.words, ", ".join(trust.counts)) if part) + _looked(trust.looked),
        places=places(desk, shown(verdict, desk.book).bands, verdict.movement, files.drawings),
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


def _plain(value: str | Markup) -> str:
    """A fact without its links: the book has page numbers instead."""
    return Markup(value).striptags() if isinstance(value, Markup) else value


def _prose(html: Markup) -> Markup:
    """An entry's own text without links and pictures, its headings as bold lines: the entry's heading stands above.

    Written as XML: what nh3 leaves open is closed, and its one named space is numbered.
    """
    text = _LINK.sub("", _PICTURE.sub("", str(html)))
    text = _HEADING.sub(lambda m: "</b></p>" if m[1] else "<p><b>", _SCROLL.sub("<div>", text))
    return Markup(_EMPTY.sub(r"<\1/>", text).replace("&nbsp;", "&#160;"))
