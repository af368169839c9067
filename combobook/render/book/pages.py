"""The book's pages as HTML: cover, contents, parts with their entries, indexes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from combobook.render.book.lists import Line, ListView, listed
from combobook.render.book.paper import BOTTOM, INNER, OUTER, TOP, letters_size
from combobook.render.book.places import place_mm
from combobook.render.book.views import EntryView, Files, glaze_entry, layering_entry
from combobook.render.chart.lengths import mm
from combobook.render.page_numbers import HOLDER
from combobook.render.print_profiles import COLOURS
from combobook.render.profiles import swatch
from combobook.render.sheet import filled
from combobook.render.views.desk import Desk, has_page

_COLUMNS, _GAP = 2, 8.0
POT_KEY: Mapping[str, str] = {kind: f"pots/key-{kind}.svg" for kind in ("here", "inside", "first", "lip", "foot")}
"""The fillings of a drawn pot, and the pictures that show them."""


def key_files() -> dict[str, bytes]:
    """The pictures of the pots' fillings."""
    return {
        src: f'<svg xmlns="http://www.w3.org/2000/svg" width="7mm" height="4mm" viewBox="0 0 28 16">'
        f"{swatch(kind, COLOURS)}</svg>".encode()
        for kind, src in POT_KEY.items()
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """Entries under one heading, and the pictures that they show."""

    anchor: str
    title: str
    short: str
    """For the title of a volume."""
    entries: tuple[EntryView, ...]
    files: Files


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyLine:
    """A line of the key: mark, word, what it means."""

    mark: str
    word: str
    means: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CoverView:
    """What stands on the first page besides the title."""

    edition: str
    notes: tuple[str, ...]
    cautions_title: str
    cautions: tuple[str, ...]
    piece: str
    key_title: str
    key: tuple[KeyLine, ...]
    pots: tuple[KeyLine, ...]
    """What the fillings of the drawn pots mean; `mark` is a picture's name."""


def glazes_part(desk: Desk) -> Part:
    """Every glaze, by name."""
    files = Files()
    verdicts = sorted(desk.edition.judged.glazes.values(), key=lambda v: (v.glaze.name.value.casefold(), v.glaze.id))
    entries = tuple(glaze_entry(desk, verdict, files) for verdict in verdicts)
    title = desk.words("book.glazes")
    return Part(anchor="glazes", title=title, short=title, entries=entries, files=files)


def layering_parts(desk: Desk) -> tuple[Part, ...]:
    """Every layering that has an entry or a tile, by first glaze, then top, both by name."""
    parts = []
    for glaze in sorted((desk.book.glazes[g] for g in desk.on), key=lambda g: (g.name.value.casefold(), g.id)):
        files = Files()
        verdicts = sorted(desk.on[glaze.id], key=lambda v: (v.top.name.value.casefold(), v.top.id))
        entries = tuple(layering_entry(desk, v, files) for v in verdicts if has_page(v))
        title = desk.words("coats.first", base=glaze.name.value)
        parts.append(
            Part(anchor=f"first-{glaze.id}", title=title, short=glaze.name.value, entries=entries, files=files)
        )
    return tuple(parts)


def book_html(
    desk: Desk,
    title: str,
    parts: Sequence[Part],
    *,
    cover: bool,
    indexes: Sequence[tuple[str, Sequence[Any]]] = (),
    known: Mapping[str, str] | None = None,
    elsewhere: bool = False,
    volumes: int = 0,
) -> str:
    """A document of these parts. `known` are pages in other volumes, in words; `elsewhere`: what is not in this one
    is named without a page, for the book's index has it. `volumes`: how many there are besides this one."""
    words, studio = desk.words, desk.book.studio
    edition = words(
        "edition.line", studio=studio.name.value, edition=studio.edition.value, date=words.date(studio.date.value)
    )
    here = {entry.anchor for part in parts for entry in part.entries}
    lists = [_listed(desk, f"index-{key}", words(f"book.{key}"), lines) for key, lines in indexes]
    contents = _listed(desk, "contents", words("book.contents"), _contents(desk, parts, lists))
    return filled(
        desk.edition.theme,
        "print/book.html",
        language=desk.edition.theme.language,
        title=title,
        whole_title=f"{title} · {studio.name.value} · {studio.edition.value}",
        style=_style(desk, edition),
        cover=_cover(desk, edition, full=cover, volumes=volumes),
        contents=contents,
        parts=parts,
        lists=lists,
        index_title=words("book.index"),
        see=words("book.see"),
        p=words("book.p"),
        here=here,
        known=known or {},
        holder=HOLDER,
        elsewhere=elsewhere,
    )


def _contents(desk: Desk, parts: Sequence[Part], lists: Sequence[ListView]) -> tuple[Line, ...]:
    lines: list[Line] = []
    for part in parts:
        lines.append(Line(words=part.title, anchors=(part.anchor,), head=True))
        lines.extend(Line(words=entry.name, anchors=(entry.anchor,)) for entry in part.entries)
    if lists:
        lines.append(Line(words=desk.words("book.index"), head=True))
        lines.extend(Line(words=each.title, anchors=(each.anchor,)) for each in lists)
    return tuple(lines)


def _listed(desk: Desk, anchor: str, title: str, lines: Sequence[Any]) -> ListView:
    paper = desk.book.studio.paper.value
    wide, high = sorted((float(paper.width), float(paper.height)))
    room = wide - INNER - OUTER
    column = (room - (_COLUMNS - 1) * _GAP) / _COLUMNS
    return listed(
        anchor, title, tuple(lines), columns=_COLUMNS, width=column, size=letters_size(), high=high - TOP - BOTTOM - 16
    )


def _style(desk: Desk, edition: str) -> Markup:
    paper = desk.book.studio.paper.value
    wide, high = sorted((float(paper.width), float(paper.height)))
    size, words = letters_size(), desk.words
    lengths = {
        "small": size,
        "small-line": 1.3 * size,
        "inner": wide - INNER - OUTER,
        "column": (wide - INNER - OUTER - (_COLUMNS - 1) * _GAP) / _COLUMNS,
        "gap": _GAP,
        "place": place_mm(desk),
        "line-thin": 0.3,
    }
    properties = "".join(f"--{name}:{mm(length)};" for name, length in lengths.items())
    margins = " ".join(mm(length) for length in (TOP, OUTER, BOTTOM, INNER))
    foot = f"{edition} · {words('edition.replaces')}"
    number = _css(words("book.page", n="\x02", m=HOLDER)).replace("\x02", '" counter(page) "')
    return Markup(
        f"@page{{size:{mm(wide)} {mm(high)};margin:{margins};"
        f"@bottom-left{{content:{_css(foot)} '\\A' {_css(words('food.piece'))}}}@bottom-right{{content:{number}}}}}"
        f"html{{{properties}}}"
    )


def _css(text: str) -> str:
    """A text as a CSS string."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("<", "\\3c ").replace("&", "\\26 ")
    return f'"{escaped}"'


def _cover(desk: Desk, edition: str, *, full: bool, volumes: int) -> CoverView:
    words = desk.words
    shown = [p.drawing for p in desk.edition.pictures.values()]
    notes = [words("edition.replaces")]
    if any(shown):
        notes.append(words("edition.drawings" if all(shown) else "edition.some_drawings"))
    if volumes:
        notes.append(words("book.volumes", n=volumes))
    return CoverView(
        edition=edition,
        notes=tuple(notes),
        cautions_title=words("cautions.title"),
        cautions=(*words.lines("cautions.lines"), words("cautions.private")),
        piece=words("food.piece"),
        key_title=words("book.key") if full else "",
        key=_key(desk) if full else (),
        pots=tuple(KeyLine(mark=src, word=words(f"profile.legend.{kind}"), means="") for kind, src in POT_KEY.items()),
    )


def _key(desk: Desk) -> tuple[KeyLine, ...]:
    words = desk.words
    food = ("never",) if desk.never else ("keep_off", "not_known", "labels_allow", "lab_report")
    lines = [
        KeyLine(
            mark=f"m-{words(f'food.{key}.mark')}",
            word=words("food.key_lab_report" if key == "lab_report" else f"food.{key}.full"),
            means="",
        )
        for key in food
    ]
    lines += [
        KeyLine(mark=f"m-{key}", word=words(f"movement.{key}.word"), means=words(f"movement.{key}.means"))
        for key in ("stable", "moves", "runny")
    ]
    lines.append(KeyLine(mark="", word="", means=words("movement.house_limits")))
    for key in ("untested", "old", "disagrees", "seen_once", "repeated", "steady"):
        mark = f"m-{key.replace('_', '-')}"
        short = words(f"evidence.{key}.short")
        lines.append(KeyLine(mark=mark, word=short[:1].upper() + short[1:], means=words(f"evidence.{key}.means")))
    return tuple(lines)


