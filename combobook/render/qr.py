"""Codes on sheets: a QR code of a page's address, and beside it a short number for rooms without phones.

The number is the page's own, from edition to edition: it comes from the page's path. The site's page of numbers
(`numbers.html`) leads from each number to its page.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from hashlib import sha256

from markupsafe import Markup, escape

from combobook.edition import Edition
from combobook.entries import Unknown

_LEAST_DIGITS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Code:
    """What stands on a sheet for one page of the site."""

    number: str
    address: str
    svg: Markup
    """The code with its quiet zone; as large as its box, with its own title for those who listen."""


def coder(edition: Edition) -> Callable[[str], Code | None]:
    """A function from a page (relative to site/) to its code; it gives None for every page where no `address` is set.

    The code reads as the studio's `address` followed by the page. Raises KeyError for a page that has no number.
    """
    address = edition.book.studio.address.value
    if address is None or isinstance(address, Unknown):
        return lambda page: None
    there = str(address).rstrip("/")
    given = numbers(numbered_pages(edition))

    def code(page: str) -> Code | None:
        whole = f"{there}/{page}"
        title = edition.words("sheets.code_title", page=whole)
        return Code(number=given[page], address=whole, svg=_drawn(whole, title))

    return code


def numbered_pages(edition: Edition) -> tuple[str, ...]:
    """Every page that a sheet may lead to: each glaze's, and each layering's that has one."""
    glazes = (f"glazes/{glaze}.html" for glaze in edition.judged.glazes)
    layerings = (
        f"combinations/{v.id}.html" for v in edition.judged.layerings.values() if v.entry is not None or v.tiles
    )
    return (*glazes, *layerings)


def numbers(pages: Iterable[str]) -> Mapping[str, str]:
    """A number of few digits for each page: as few as tell all of them apart, never beginning with 0.

    Taken from the page's path, so that other pages hardly ever change it: of two that would have the same, the one
    later in the alphabet takes the next that is free.
    """
    sorted_pages = sorted(set(pages))
    digits = _LEAST_DIGITS
    while 9 * 10 ** (digits - 1) < 6 * len(sorted_pages):
        digits += 1
    first, count = 10 ** (digits - 1), 9 * 10 ** (digits - 1)
    taken: dict[int, str] = {}
    for page in sorted_pages:
        number = int.from_bytes(sha256(page.encode()).digest()[:8]) % count
        while number in taken:
            number = (number + 1) % count
        taken[number] = page
    return {page: str(first + number) for number, page in taken.items()}


def _drawn(text: str, title: str) -> Markup:
    """The QR code (level M) as SVG: one path, black on white, four modules of quiet zone."""
    import segno  # Imported here: only sheets with an address need it.

    code = segno.make(text, error="m", micro=False)
    side = code.symbol_size(border=4)[0]
    rows = ("".join("1" if module else "0" for module in row) for row in code.matrix_iter(border=4))
    path = "".join(
        f"M{start} {y}h{length}v1h-{length}z" for y, row in enumerate(rows) for start, length in _runs(row)
    )
    return Markup(
        f'<svg class="code" viewBox="0 0 {side} {side}" shape-rendering="crispEdges"><title>{escape(title)}</title>'
        f'<path d="M0 0h{side}v{side}h-{side}z" fill="#ffffff"/><path d="{path}" fill="#000000"/></svg>'
    )


def _runs(row: str) -> Iterable[tuple[int, int]]:
    """Where the dark modules of a row begin, and how many follow on one another."""
    start = row.find("1")
    while start >= 0:
        end = row.find("0", start)
        yield start, end - start
        start = row.find("1", end)
