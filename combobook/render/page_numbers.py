"""Page numbers filled in once the pages stand: a browser's way lays out every page two or three times over.

A reference is `<a class="pn" href="#place">000</a>`, and in a page's lower right margin `000` stands for the count of
pages: other margins have names in them, and a glaze may be called `000` too.
"""

from __future__ import annotations

from typing import Any

HOLDER = "000"
"""Takes the room of a number while the pages are laid out."""

COUNTED = "@bottom-right"
"""The margin that says how many pages there are."""


def fill_in(document: Any) -> dict[str, int]:
    """Puts each number into WeasyPrint's finished layout; gives the page of each anchor, counted from 1."""
    from weasyprint.formatting_structure.boxes import MarginBox

    pages = {anchor: n for n, page in enumerate(document.pages, 1) for anchor in page.anchors}
    count = str(len(document.pages))
    for page in document.pages:
        for child in page._page_box.children:
            for text in _texts(child):
                if isinstance(child, MarginBox):
                    if child.at_keyword == COUNTED:
                        _say(text, text.text.replace(HOLDER, count))
                elif _is_reference(text):
                    _say(text, str(pages[text.element.get("href").removeprefix("#")]))
    return pages


def _texts(box: Any) -> list[Any]:
    from weasyprint.formatting_structure.boxes import TextBox

    if isinstance(box, TextBox):
        return [box]
    return [each for each in box.descendants() if isinstance(each, TextBox)] if hasattr(box, "descendants") else []


def _is_reference(text: Any) -> bool:
    element = text.element
    return text.text == HOLDER and element is not None and element.tag == "a" and element.get("class") == "pn"


def _say(box: Any, words: str) -> None:
    """Other words in the same box: what is drawn is the layout's own text."""
    if words != box.text:
        box.text = box.pango_layout.text = words
