"""Words of a page by where they stand, for sheets whose boxes lie side by side."""

from __future__ import annotations

from tests.sheets.reading import MM, SheetPage, Word

CARD = (102 * MM, 66 * MM)
"""Width and height of a card, in points."""


def cards(page: SheetPage, card: tuple[float, float] = CARD) -> tuple[str, ...]:
    """What stands on each card of a sheet of cards that is cut, row by row."""
    wide, high = card
    columns, rows = int(page.width // wide), int((page.height - 14 * MM) // high)
    left, top = (page.width - columns * wide) / 2, (page.height - rows * high) / 2
    return tuple(
        box(page, left + column * wide, top + row * high, left + (column + 1) * wide, top + (row + 1) * high)
        for row in range(rows)
        for column in range(columns)
    )


def box(page: SheetPage, left: float, top: float, right: float, bottom: float) -> str:
    """The words whose middle lies in a box (points, from the upper left corner), line by line."""
    inside = [
        word
        for word in page.words
        if left <= (word.x0 + word.x1) / 2 < right and top <= (word.y0 + word.y1) / 2 < bottom
    ]
    lines: list[list[Word]] = []
    for word in sorted(inside, key=lambda word: word.y1):
        if lines and abs(lines[-1][0].y1 - word.y1) < 2.5:
            lines[-1].append(word)
        else:
            lines.append([word])
    return "\n".join(" ".join(w.text for w in sorted(line, key=lambda w: w.x0)) for line in lines)
