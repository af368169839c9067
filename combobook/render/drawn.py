"""A finished document's pages as drawings that another document can show, each in the file once.

Taken from the objects of a PDF just before they become bytes: reading them back from the file would cost a tenth of
what making a wall chart does.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

_REFERENCE = re.compile(rb"\b(\d+) 0 R\b")


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnPage:
    """One page; lengths in points."""

    width: float
    height: float
    content: bytes
    """Its drawing operations, their marks without their tags."""
    resources: bytes
    """A reference to what they use."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """Every page of a document, and the objects that they draw with."""

    pages: tuple[DrawnPage, ...]
    objects: Mapping[bytes, Any]
    """By their references."""


def drawn(pdf: Any) -> Drawn:
    """The pages of WeasyPrint's `pdf` objects."""
    objects = {thing.reference: thing for thing in pdf.objects[1:]}
    pages = []
    for reference in pdf.page_references:
        page = objects[reference]
        left, bottom, right, top = page["MediaBox"]
        content = b"\n".join(map(_bytes, _untagged(objects[page["Contents"]].stream)))
        pages.append(DrawnPage(width=right - left, height=top - bottom, content=content, resources=page["Resources"]))
    return Drawn(pages=tuple(pages), objects=objects)


def forms(pdf: Any, source: Drawn) -> list[Any]:
    """Adds each page of `source` to `pdf` as a Form XObject (ISO 32000-1, 8.10), with all that it draws with."""
    import pydyf

    known: dict[bytes, bytes] = {}
    made = []
    for page in source.pages:
        extra = {
            "Type": "/XObject",
            "Subtype": "/Form",
            "BBox": pydyf.Array([0, 0, page.width, page.height]),
            "Resources": _copied(page.resources, pdf, source, known),
        }
        form = pydyf.Stream([page.content], extra, compress=True)
        pdf.add_object(form)
        made.append(form)
    return made


def _untagged(operations: list[Any]) -> Iterator[Any]:
    """Marks must stay in pairs; what they were part of is another file's tree."""
    for n, operation in enumerate(operations):
        following = operations[n + 1 : n + 3]
        if b"BDC" in following[1:] or following[:1] == [b"BMC"]:
            yield b"/Span"
        elif following[:1] != [b"BDC"]:
            yield b"BMC" if operation == b"BDC" else operation


def _bytes(operation: Any) -> bytes:
    if isinstance(operation, bytes):
        return operation
    written: bytes = operation.encode() if isinstance(operation, str) else operation.data
    return written


def _copied(value: Any, pdf: Any, source: Drawn, known: dict[bytes, bytes]) -> Any:
    """The same value in the other document; what it refers to comes with it, once."""
    import pydyf

    if isinstance(value, dict):
        return pydyf.Dictionary({key: _copied(each, pdf, source, known) for key, each in value.items()})
    if isinstance(value, list | tuple):
        return pydyf.Array([_copied(each, pdf, source, known) for each in value])
    if isinstance(value, bytes):
        return _REFERENCE.sub(lambda found: _moved(found[0], pdf, source, known), value)
    return value


def _moved(reference: bytes, pdf: Any, source: Drawn, known: dict[bytes, bytes]) -> bytes:
    import pydyf

    if reference not in known:
        thing = source.objects[reference]
        if isinstance(thing, pydyf.Stream):
            extra = _copied(dict(thing.extra), pdf, source, known)
            moved = pydyf.Stream(thing.stream, extra, compress=thing.compress)
        else:
            moved = _copied(thing, pdf, source, known)
        pdf.add_object(moved)
        known[reference] = moved.reference
    return known[reference]
