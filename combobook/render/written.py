"""WeasyPrint's PDF objects made into bytes sooner than by its own writer, pydyf, and otherwise the same.

- Streams are deflated at LEVEL. At pydyf's level, the highest, a book's take three times as long for 1 % of its bytes.
- A tag asks for its page's reference out of all of them, which pydyf makes out anew each time: work that grows with
  the square of a document's pages. Here they are made out once.
"""

from __future__ import annotations

import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from typing import Any

LEVEL = 6
"""Of zlib, from 1 (quick) to 9 (small)."""


@contextmanager
def written_here() -> Iterator[None]:
    """While it lasts, a document that WeasyPrint makes is written as this module says.

    WeasyPrint names its class of documents and takes no other: the name is lent to ours, and given back.
    """
    import pydyf

    theirs = pydyf.PDF
    pydyf.PDF = _document()
    try:
        yield
    finally:
        pydyf.PDF = theirs


@cache
def _document() -> type[Any]:
    import pydyf

    class Document(pydyf.PDF):  # type: ignore[misc]
        """Knows its pages' references, and presses its streams before the library writes them."""

        _pages: tuple[bytes, ...] = ()

        @property
        def page_references(self) -> tuple[bytes, ...]:
            if len(self._pages) != self.pages["Count"]:
                self._pages = super().page_references
            return self._pages

        def write(self, *given: Any) -> None:
            for thing in self.objects:
                if isinstance(thing, pydyf.Stream) and thing.compress:
                    _press(thing)
            super().write(*given)

    return Document


def _press(stream: Any) -> None:
    """Leaves a stream as its deflated bytes."""
    content = b"\n".join(_bytes(item) for item in stream.stream)
    stream.stream, stream.compress = [zlib.compress(content, LEVEL)], False
    stream.extra = {**stream.extra, "Filter": "/FlateDecode"}


def _bytes(item: Any) -> bytes:
    """A part of a stream, which the library takes as text, as bytes or as an object of its own."""
    if isinstance(item, bytes):
        return item
    said: bytes = item.encode("ascii") if isinstance(item, str) else item.data
    return said
