"""A drawing that a document shows many times is written into its PDF once, and placed wherever it stands.

WeasyPrint writes an SVG picture out anew at each place: in a book, a quarter of all its time.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any


def draw_once(document: Any) -> None:
    """Prepares WeasyPrint's finished layout: every drawing that stands in it twice or more is written once a size."""
    from weasyprint.images import SVGImage

    places: dict[int, list[Any]] = {}
    for page in document.pages:
        for box in _replaced(page._page_box):
            if isinstance(box.replacement, SVGImage):
                places.setdefault(id(box.replacement), []).append(box)
    for boxes in places.values():
        if len(boxes) > 1:
            once = _Once(boxes[0].replacement)
            for box in boxes:
                box.replacement = once


class _Once:
    """Stands in for a drawing."""

    def __init__(self, image: Any) -> None:
        self._image = image
        self.get_intrinsic_size = image.get_intrinsic_size
        self._written: dict[tuple[int, float, float], Any] = {}

    def draw(self, stream: Any, width: float, height: float, style: Any) -> None:
        """Places the drawing; writes it first where it is not yet among what this stream draws with."""
        key = (id(stream._resources), width, height)
        if key not in self._written:
            group = stream.add_group(0, 0, width, height)
            del group.extra["Group"]  # Nothing in it is mixed with what lies below: a plain form.
            self._image.draw(group, width, height, style)
            self._written[key] = group
        stream.draw_x_object(self._written[key].id)


def _replaced(page: Any) -> Iterator[Any]:
    from weasyprint.formatting_structure.boxes import ReplacedBox

    return (box for box in page.descendants(placeholders=True) if isinstance(box, ReplacedBox))
