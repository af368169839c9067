"""Page numbers filled in once the pages stand: a browser's way lays out every page two or three times over.

A reference is `<a class="pn" href="#place">… 000</a>`, its number last, and in a page's lower right margin `000` stands
for the count of pages: other margins have names in them, and a glaze may be called `000` too. Where a number is shorter
than its holder, what follows it in its line moves up to it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

HOLDER = "000"
"""Takes the room of a number while the pages are laid out."""

COUNTED = "@bottom-right"
"""The margin that says how many pages there are."""


@dataclass(frozen=True, slots=True)
class _Reference:
    """A reference's box (the last, where it goes over into another line or page), its text, and its line."""

    box: Any
    text: Any
    line: Any


def fill_in(document: Any) -> dict[str, int]:
    """Puts each number into WeasyPrint's finished layout; gives the page of each anchor, counted from 1."""
    pages = {anchor: n for n, page in enumerate(document.pages, 1) for anchor in page.anchors}
    _count(document)
    widths: dict[tuple[int, str], float] = {}
    for reference in _references(document):
        text = reference.text
        number = str(pages[text.element.get("href").removeprefix("#")])
        _say(text, text.text.removesuffix(HOLDER) + number)
        _draw_up(reference, _width(text.style, HOLDER, widths) - _width(text.style, number, widths))
    for page in document.pages:
        page.links[:] = [(kind, target, _corners(box), box) for kind, target, _, box in page.links]
    return pages


def _count(document: Any) -> None:
    count = str(len(document.pages))
    for page in document.pages:
        for margin in page._page_box.children:
            if getattr(margin, "at_keyword", "") == COUNTED:
                for line in _lines(margin):
                    for text in line.children:
                        _say(text, text.text.replace(HOLDER, count))


def _references(document: Any) -> Iterator[_Reference]:
    """Each once: of one in several pieces the last has the number."""
    found: dict[int, _Reference] = {}
    for page in document.pages:
        for line in _lines(page._page_box):
            for box in line.children:
                element = box.element
                if getattr(element, "tag", "") == "a" and element.get("class") == "pn":
                    found[id(element)] = _Reference(box, box.children[-1], line)
    return iter(found.values())


def _lines(box: Any) -> Iterator[Any]:
    """The lines of text in a box; each word for itself would be met as often as boxes lie around it."""
    from weasyprint.formatting_structure.boxes import LineBox

    waiting = [box]
    while waiting:
        each = waiting.pop()
        if isinstance(each, LineBox):
            yield each
        else:
            waiting.extend(reversed(getattr(each, "children", ())))


def _say(box: Any, words: str) -> None:
    """Other words in the same box: what is drawn is the layout's own text."""
    box.text = box.pango_layout.text = words


def _draw_up(reference: _Reference, less: float) -> None:
    """The reference becomes so much narrower, and what stands after it in its line moves up to it."""
    reference.text.width -= less
    reference.box.width -= less
    parts = reference.line.children
    for part in parts[parts.index(reference.box) + 1 :]:
        part.translate(dx=-less)


def _width(style: Any, digits: str, known: dict[tuple[int, str], float]) -> float:
    """How wide these digits come out, measured once."""
    from weasyprint.text.line_break import Layout, line_size

    key = (id(style), digits)
    if key not in known:
        layout = Layout(style)
        layout.set_text(digits)
        known[key] = line_size(layout.get_first_line()[0], style)[0]
    return known[key]


def _corners(box: Any) -> tuple[float, float, float, float]:
    x, y, wide, high = box.hit_area()
    return x, y, x + wide, y + high
