"""A drawing that a document shows many times is written into its PDF once, and placed wherever it stands.

WeasyPrint writes an SVG picture out anew at each place: in a book, a quarter of all its time.
"""

from __future__ import annotations

from typing import Any

_MADE = ("ExtGState", "XObject", "Pattern", "Shading")
"""What a drawing may add to what its stream draws with."""


def draw_once(document: Any) -> None:
    """Prepares WeasyPrint's finished layout: every drawing that stands in it twice or more is written once a size.

    Marks that stand as backgrounds are worked out once a size, and written wherever they stand: they are short.
    """
    from weasyprint.images import SVGImage

    places: dict[int, list[Any]] = {}
    marks: dict[int, _Repeated] = {}
    for page in document.pages:
        for box in page._page_box.descendants(placeholders=True):
            if isinstance(getattr(box, "replacement", None), SVGImage):
                places.setdefault(id(box.replacement), []).append(box)
            layers: list[Any] = box.background.layers if getattr(box, "background", None) else []
            for n, layer in enumerate(layers):
                if isinstance(layer.image, SVGImage):
                    again = marks.setdefault(id(layer.image), _Repeated(layer.image))
                    layers[n] = layer._replace(image=again)
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


class _Repeated:
    """Stands in for a background: each has a group of its own, where no form of another can be placed."""

    def __init__(self, image: Any) -> None:
        self._image = image
        self.get_intrinsic_size = image.get_intrinsic_size
        self._written: dict[tuple[float, float], tuple[list[Any], dict[str, Any]]] = {}

    def draw(self, stream: Any, width: float, height: float, style: Any) -> None:
        """Writes the drawing; keeps what was written where it needs no more than how opaque its colours are."""
        states = stream._resources["ExtGState"]
        if (width, height) in self._written:
            operations, needed = self._written[width, height]
            stream.stream.extend(operations)
            states.update(needed)
            return
        begin, before = len(stream.stream), _held(stream)
        self._image.draw(stream, width, height, style)
        added = _held(stream) - before
        if all(kind == "ExtGState" and set(states[name]) <= {"ca", "CA"} for kind, name in added):
            needed = {name: state for name, state in states.items() if ("ExtGState", name) in added}
            self._written[width, height] = stream.stream[begin:], needed


def _held(stream: Any) -> set[tuple[str, str]]:
    return {(kind, name) for kind in _MADE for name in stream._resources[kind]}
