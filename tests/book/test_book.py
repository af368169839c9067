"""The book as Poppler and pypdf read it: its pages are where its contents, index and cross-references say."""

from __future__ import annotations

import re
import subprocess
from functools import cache
from io import BytesIO
from itertools import pairwise
from typing import Any

import pytest
from pypdf import PdfReader
from weasyprint.images import SVGImage

import combobook.render.book as making
from combobook.render.book import book
from combobook.render.book.lists import Line, listed
from combobook.render.book.pages import glazes_part, layering_parts
from combobook.render.book.volumes import volumes
from combobook.render.cautions import cautions
from combobook.render.views.desk import desk, has_page
from tests.chart.editions import NAMES, edition, ring
from tests.published_demo import demo_edition
from tests.sheets.reading import SheetPage, every_word_on_its_page_and_on_no_other, made, only_our_face, read, sound

PATH = "print/book.pdf"


@cache
def pages() -> tuple[SheetPage, ...]:
    """The demo's; its tags are like those of the small book, whose check takes less than a minute."""
    whole = made(book)[PATH]
    only_our_face(whole)
    found = read(whole)
    every_word_on_its_page_and_on_no_other(found)
    return found


@cache
def small() -> dict[str, bytes]:
    """A book of sixteen glazes and twelve layerings, in one document."""
    files, problems = book(edition(ring(4, 3)))
    assert problems == ()
    return dict(files)


def outline(pdf: bytes) -> list[tuple[int, str, int]]:
    """Level, title and page (counted from 1) of every bookmark, by pypdf."""
    reader = PdfReader(BytesIO(pdf))

    def walk(items: list[Any], level: int) -> list[tuple[int, str, int]]:
        found: list[tuple[int, str, int]] = []
        for item in items:
            if isinstance(item, list):
                found += walk(item, level + 1)
            else:
                page = reader.get_destination_page_number(item)
                assert page is not None
                found.append((level, str(item["/Title"]), page + 1))
        return found

    return walk(reader.outline, 1)


def test_every_glaze_and_layering_of_the_demo_has_its_entry() -> None:
    titles = [title for _, title, _ in outline(made(book)[PATH])]
    judged = demo_edition().judged
    due = [v.glaze.name.value for v in judged.glazes.values()]
    due += [f"{v.top.name.value} over {v.base.name.value}" for v in judged.layerings.values() if has_page(v)]
    assert len(due) > 100
    for name in due:
        assert titles.count(name) == 1, name


def test_what_a_verdict_does_not_speak_of_stands_in_its_entry() -> None:
    edition = demo_edition()
    where = {title: page for _, title, page in outline(made(book)[PATH])}
    found = 0
    for verdict in edition.judged.layerings.values():
        if has_page(verdict):
            page = where[f"{verdict.top.name.value} over {verdict.base.name.value}"]
            text = " ".join(" ".join(each.text for each in pages()[page - 1 : page + 1]).split())
            for said in cautions(verdict, edition.book, edition.judged, edition.words):
                assert said in text, verdict.id
                found += 1
    assert found > 40


def test_every_bookmark_leads_to_the_page_with_its_heading() -> None:
    for _, title, page in outline(made(book)[PATH]):
        assert " ".join(title.split()) in pages()[page - 1].text, (title, page)


def test_contents_and_index_say_the_page_on_which_the_entry_stands() -> None:
    at = {title: page for _, title, page in outline(small()[PATH])}
    text = " ".join(page.text for page in read(small()[PATH]))
    layerings = {title: page for title, page in at.items() if " over " in title}
    assert len(layerings) == 12
    for title, page in layerings.items():
        top, base = title.split(" over ")
        for line in (f"{title} {page}", f"then {top} {page}", f"over {base} {page}"):
            assert re.search(rf"{line}\b", text), line
    for n, name in enumerate(NAMES[:4]):
        assert f"{name} {at[name]} " in text
        assert f"{name} ({chr(65 + n)}{n}) {at[name]} " in text
        assert f"{chr(65 + n)}{n} {name} {at[name]} " in text


def test_cross_references_say_the_page_of_what_they_name() -> None:
    at = {title: page for _, title, page in outline(small()[PATH])}
    text = " ".join(page.text for page in read(small()[PATH]))
    first = re.findall(r"first glaze, (\w+ \w+): p\. (\d+)", text)
    top = re.findall(r"top, (\w+ \w+): p\. (\d+)", text)
    assert len(first) == len(top) == 12
    for name, page in (*first, *top):
        assert at[name] == int(page), name


def test_every_tile_is_in_the_index_with_the_page_of_its_entry() -> None:
    text = " ".join(page.text for page in read(small()[PATH]))
    index = text[text.rindex("By tile") :]
    at = {title: page for _, title, page in outline(small()[PATH])}
    for n, (base, over) in enumerate(ring(4, 3)):
        if n % 2:
            assert f"X{n} {at[f'{NAMES[over]} over {NAMES[base]}']}" in index


def test_every_page_has_edition_caution_and_number_and_the_cover_all_cautions() -> None:
    for n, page in enumerate(pages(), 1):
        for words in (f"page {n} of {len(pages())}", "Weir Street Clay Room", "20 November 2026", "Replaces earlier",
                      "Your own piece decides"):  # fmt: skip
            assert words in page.text, (n, words)
    for words in ("the stricter wins", "no laboratory's finding", "never dry-sweep", "fitted respirator", "goggles",
                  "Kilns are the technician's", "Only codes", "Pictures are drawings", "bare foot"):  # fmt: skip
        assert words in pages()[0].text


def test_no_placeholder_is_left_where_a_page_number_should_be() -> None:
    assert [page.text.count(" 000") for page in pages() if " 000" in page.text] == []


def test_a_glaze_called_like_the_placeholder_keeps_its_name_in_running_heads() -> None:
    files, problems = book(edition(((0, 1), (1, 2)), names=("Batch 000", *NAMES[1:])))
    assert problems == ()
    text = " ".join(page.text for page in read(files[PATH]))
    heads = re.findall(r"Batch (\d+) first", text)
    assert len(heads) >= 2
    assert set(heads) == {"000"}


def test_the_book_is_sound() -> None:
    assert len(sound(small()[PATH], furniture=False, guesses=("PAG-001",))) > 10


def test_running_heads_name_part_and_entry() -> None:
    (_, title, page), *_ = [o for o in outline(made(book)[PATH]) if " over " in o[1]]
    words = pages()[page - 1].text
    assert title in words
    assert f"{title.split(' over ')[1]} first" in words


def test_the_books_tags_name_headings_and_pictures() -> None:
    told = subprocess.run(["pdfinfo", "-struct", "-"], input=small()[PATH], capture_output=True, check=True)
    tags = told.stdout.decode()
    assert len(re.findall(r"\bH1\b", tags)) == 1
    assert len(re.findall(r"\bH3\b", tags)) >= 28
    assert len(re.findall(r"\bFigure\b", tags)) >= 12


def test_a_large_book_is_volumes_with_one_index_over_all(monkeypatch: pytest.MonkeyPatch) -> None:
    """With the limits lowered: three volumes of a small studio, made in other processes."""
    monkeypatch.setattr(making, "MOST", 10)
    monkeypatch.setattr(making, "A_VOLUME", 4)
    files, problems = book(edition(ring(4, 3)))
    assert problems == ()
    assert sorted(files) == ["print/book-1.pdf", "print/book-2.pdf", "print/book-3.pdf", PATH]
    at: dict[str, tuple[int, int]] = {}
    for n in (1, 2, 3):
        bound = files[f"print/book-{n}.pdf"]
        at |= {title: (n, page) for _, title, page in outline(bound) if " over " in title}
        sound(bound, furniture=False, cautions=False, guesses=("PAG-001",))
    assert len(at) == 12
    text = " ".join(page.text for page in sound(files[PATH], furniture=False, guesses=("PAG-001",)))
    assert "in 3 volumes of their own" in text
    for name, (volume, page) in at.items():
        top, base = name.split(" over ")
        assert f"then {top} vol. {volume}, p. {page}" in text, name
        assert f"over {base} vol. {volume}, p. {page}" in text, name


def test_every_form_is_drawn_and_spoken_of_and_the_same_words_stand_once() -> None:
    laid_out = desk(demo_edition())
    forms = sorted(form.name.value for form in demo_edition().book.forms.values())
    joined = 0
    for entry in (entry for part in (glazes_part(laid_out), *layering_parts(laid_out)) for entry in part.entries):
        row = entry.places
        assert sorted(place.name for place in row.cells) == forms
        assert [" \t".join(place.name for place in row.cells)] == list(row.names)
        told = [name for note in row.notes for name in re.split(r", | and ", note.names)]
        assert sorted(told) == forms, entry.name
        assert len({note.says for note in row.notes}) == len(row.notes)
        joined += len(row.cells) - len(row.notes)
    assert joined > 100


def test_a_drawing_that_stands_in_many_entries_is_in_the_file_once() -> None:
    laid_out = desk(demo_edition())
    parts = (glazes_part(laid_out), *layering_parts(laid_out))
    shown = [place.src for part in parts for entry in part.entries for place in entry.places.cells if place.src]
    drawings: Any = PdfReader(BytesIO(made(book)[PATH])).pages[-1]["/Resources"]["/XObject"]  # type: ignore[index]
    forms = [name for name in drawings if drawings[name]["/Subtype"] == "/Form" and "/Group" not in drawings[name]]
    repeated = {src for src in shown if shown.count(src) > 1}
    assert len(shown) > 10 * len(repeated) > 0
    assert len(forms) == len(repeated)


def test_volumes_are_even_and_divide_no_first_glaze() -> None:
    parts = layering_parts(desk(edition(ring(6, 2))))
    held = volumes(parts, 5)
    assert [part for volume in held for part in volume] == list(parts)
    assert [sum(len(part.entries) for part in volume) for volume in held] == [4, 4, 4]


def test_no_column_of_a_list_is_too_high_and_no_head_stands_last() -> None:
    lines = [Line(words=f"Glaze {n}", anchors=("a",), head=n % 4 == 0) for n in range(90)]
    view = listed("x", "X", lines, columns=2, width=80, size=3, high=100)
    columns = [column for page in view.pages for column in page]
    assert [line for column in columns for line in column] == lines
    for column in columns:
        assert sum(2 if line.head else 1 for line in column) <= int(100 / 3.9)
        assert not column[-1].head


def test_an_entrys_own_text_stands_without_links_and_pictures() -> None:
    laid_out = desk(demo_edition())
    proses = [str(entry.prose) for part in (glazes_part(laid_out), *layering_parts(laid_out)) for entry in part.entries]
    assert sum(bool(prose) for prose in proses) > 50
    assert not any("<a " in prose or "<img" in prose or "<h" in prose for prose in proses)


def test_the_same_edition_gives_the_same_book() -> None:
    assert book(edition(ring(4, 3)))[0] == small()


def test_nothing_but_a_space_stands_between_a_page_number_and_what_follows_it() -> None:
    """Numbers of one figure and of two, for which the layout kept the room of three."""
    gaps: dict[int, list[float]] = {1: [], 2: []}
    for page in read(small()[PATH]):
        for (before, number), (_, after) in pairwise(pairwise(page.words)):
            if before.text == "p." and after.text == "·" and after.y0 == number.y0:
                gaps[len(number.text)].append(after.x0 - number.x1)
    assert min(map(len, gaps.values())) > 3
    assert all(0.5 < gap < 3 for some in gaps.values() for gap in some), gaps


def test_every_link_lies_over_its_own_words() -> None:
    """Also those that moved up to a number shorter than the room kept for it."""
    over = 0
    for page, read_page in zip(PdfReader(BytesIO(small()[PATH])).pages, read(small()[PATH]), strict=True):
        tall = float(page.mediabox.height)
        for link in (note.get_object() for note in page.get("/Annots", ())):
            x0, y0, x1, y1 = (float(edge) for edge in link["/Rect"])  # type: ignore[index]
            low, high = sorted((tall - y0, tall - y1))
            inside = [w for w in read_page.words if low - 1 < (w.y0 + w.y1) / 2 < high + 1 and x0 - 1 < w.x0 < x1]
            assert inside, (x0, low)
            assert abs(inside[0].x0 - x0) < 1 and abs(inside[-1].x1 - x1) < 1, inside
            over += 1
    assert over > 80


def test_a_glaze_called_like_the_placeholder_keeps_its_name_in_references() -> None:
    files, _ = book(edition(((0, 1), (1, 0)), names=("Batch 000", *NAMES[1:])))
    text = " ".join(page.text for page in read(files[PATH]))
    assert len(re.findall(r"first glaze, Batch 000: p\. \d+", text)) == 1
    assert len(re.findall(r"top, Batch 000: p\. \d+", text)) == 1


def test_a_mark_that_stands_in_every_entry_is_worked_out_once_a_size(monkeypatch: pytest.MonkeyPatch) -> None:
    drawn: list[str] = []
    own = SVGImage.draw
    monkeypatch.setattr(SVGImage, "draw", lambda self, *more: (drawn.append(self._base_url), own(self, *more))[1])
    assert book(edition(ring(4, 3)))[0] == small()
    marks = [url for url in drawn if "/marks/" in url]
    assert len(marks) <= 2 * len(set(marks))
    assert len(set(marks)) > 5
