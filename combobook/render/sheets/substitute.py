"""The substitute's sheet: one page for the folder, from the same view as the page on the site.

Nothing may spill over to a second page, so every line is counted before it is set: what always stands there first
(the rule, what the class may do, what waits, whom to call), then as many glazes and pairs as there is room for.
Where some are left out, the sheet says how many, and that they wait.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from combobook.edition import Edition
from combobook.problems import Problem
from combobook.render.letters import Run, wrapped
from combobook.render.sheets.cut import too_small
from combobook.render.sheets.frame import frame, printed
from combobook.render.views.desk import desk
from combobook.render.views.today import Allowed, AllowedList, TodayView, Waiting, today_view
from combobook.wording import Words

PATH = "print/substitute.pdf"
_SIZE, _LINE = 2.8, 3.5
"""mm: letters as small as may be read from the hand, and their lines."""
_RULE, _RULE_LINE = 4.2, 5.2
_HEAD, _GAP, _CALL = 7.5, 0.6, 12.0
"""mm: a heading with the air above it, the air between paragraphs, and a line to write on."""
_BETWEEN = 4.0
"""mm between columns."""
_NAMES_MOST = 30
"""Above so many waiting jars only their marks are printed."""
_TELLS_OF_REST = 2
"""Lines that say how many had no room."""
GLAZE_COLUMNS, PAIR_COLUMNS = 3, 2
Columns = tuple[tuple[str, ...], ...]
"""Lines, column by column."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ListView:
    """Glazes and pairs that may, or may not, go where food goes: lines by column."""

    title: str
    lead: str
    glazes: Columns
    pairs: Columns


@dataclass(frozen=True, slots=True, kw_only=True)
class WaitingView:
    why: str
    jars: str


def substitute(edition: Edition) -> tuple[dict[str, bytes], tuple[Problem, ...]]:
    """What the class may do today on one sheet of `paper`; not made, with a problem, where it cannot hold the rule."""
    words, paper = edition.words, edition.book.studio.paper.value
    today = today_view(desk(edition))
    furnished = frame(edition, words("substitute.title"), paper, key=())
    waiting = tuple(_waiting(today.waiting, words))
    room = furnished.height - _standing(today, waiting, furnished.width)
    if room < _least(today):
        return {}, (too_small(edition, "substitute.pdf"),)
    lines = int(room // _LINE)
    lists, left_out = _lists(today.lists, lines, furnished.width, words)
    if any(left_out):
        lists, left_out = _lists(today.lists, lines - _TELLS_OF_REST, furnished.width, words)
    return printed(
        edition,
        "print/substitute.html",
        path=PATH,
        furnished=furnished,
        styles=("print-substitute.css",),
        today=today,
        lists=lists,
        left_out=_left_out(left_out, words),
        waiting=waiting,
        house=_halves(today.house),
        glazes_title=words("site.asking.today.glazes"),
        pairs_title=words("site.asking.today.layerings"),
    )


def _waiting(waiting: Sequence[Waiting], words: Words) -> Iterable[WaitingView]:
    in_all = sum(len(each.glazes) for each in waiting)
    for each in waiting:
        jars = tuple(jar.mark if in_all > _NAMES_MOST else f"{jar.mark} {jar.name}" for jar in each.glazes)
        yield WaitingView(why=each.why, jars=words.listed(jars))


def _standing(today: TodayView, waiting: Sequence[WaitingView], width: float) -> float:
    """The height of all that stands there whatever is on the shelf, in mm."""
    half = (width - _BETWEEN) / 2
    parts = [
        _high([today.lead], width),
        _RULE_LINE * _lines(today.rule, width - 8, _RULE) + 10,
        _HEAD + max(_high(today.jobs, half - 3), _high(today.teacher, half - 3)),
        _HEAD + _CALL,
    ]
    if today.never or today.none:
        parts.append(_high([text for text in (today.never, today.none) if text], width))
    if waiting:
        parts.append(_HEAD + _high([f"{each.why} {each.jars}" for each in waiting], width - 3))
    if today.house:
        parts.append(_HEAD + max(_high(column, half - 3) for column in _halves(today.house)))
    return sum(parts)


def _halves(texts: Sequence[str]) -> tuple[Sequence[str], Sequence[str]]:
    middle = -(-len(texts) // 2)
    return texts[:middle], texts[middle:]


def _least(today: TodayView) -> float:
    """Room for the headings of every list, one line of each, and the line that tells of the rest."""
    return len(today.lists) * (_HEAD + 5 * _LINE) + _TELLS_OF_REST * _LINE if today.lists else 0


def _high(texts: Iterable[str], width: float) -> float:
    return sum(_lines(text, width, _SIZE) * _LINE + _GAP for text in texts)


def _lines(text: str, width: float, size: float) -> int:
    return len(wrapped((Run(text, True),), size, width))


def _lists(
    lists: Sequence[AllowedList], room: int, width: float, words: Words
) -> tuple[tuple[ListView, ...], tuple[int, int]]:
    """As many glazes and pairs as `room` lines hold in all, glazes first; and how many of each are left out."""
    left = room - sum(3 + (2 if each.glazes and each.layerings else 1) for each in lists)
    glazes, left, glazes_out = _shared(
        [[_glaze(g, words) for g in each.glazes] for each in lists], GLAZE_COLUMNS, left, width
    )
    pairs, left, pairs_out = _shared(
        [[_pair(p, words) for p in each.layerings] for each in lists], PAIR_COLUMNS, left, width
    )
    made = tuple(
        ListView(title=each.title, lead=each.lead, glazes=its_glazes, pairs=its_pairs)
        for each, its_glazes, its_pairs in zip(lists, glazes, pairs, strict=True)
    )
    return made, (glazes_out, pairs_out)


def _shared(
    lists: Sequence[Sequence[str]], columns: int, left: int, width: float
) -> tuple[tuple[Columns, ...], int, int]:
    """The lists in columns, each with its share of the lines left; the lines still left, and the texts left out."""
    made, out = [], 0
    for n, texts in enumerate(lists):
        sharing = max(1, sum(1 for each in lists[n:] if each))
        parts, used, without = _columns(texts, columns, left // sharing, width)
        made.append(parts)
        left, out = left - used, out + without
    return tuple(made), left, out


def _columns(texts: Sequence[str], columns: int, share: int, width: float) -> tuple[Columns, int, int]:
    """The texts down one column after another; the lines that the fullest takes; and how many texts have no room."""
    column_wide = (width - (columns - 1) * _BETWEEN) / columns
    shown = list(texts)
    while True:
        down = -(-len(shown) // columns)
        parts = [tuple(shown[n * down : (n + 1) * down]) for n in range(columns)] if shown else []
        high = max((sum(_lines(text, column_wide - 3, _SIZE) for text in part) for part in parts), default=0)
        if high <= max(share, 0):
            return tuple(part for part in parts), high, len(texts) - len(shown)
        shown = shown[: -max(1, columns * (high - max(share, 0)) // 2)]


def _glaze(glaze: Allowed, words: Words) -> str:
    note = words("substitute.note", note=glaze.note) if glaze.note else ""
    return words(
        "substitute.glaze", mark=glaze.mark, name=glaze.name, coats=glaze.coats, to_do=glaze.to_do.words, note=note
    )


def _pair(pair: Allowed, words: Words) -> str:
    clays = words("substitute.note", note=pair.clays) if pair.clays else ""
    return words("substitute.pair", coats=pair.coats or pair.name, to_do=pair.to_do.words, clays=clays)


def _left_out(left_out: tuple[int, int], words: Words) -> str:
    glazes, pairs = left_out
    if not glazes and not pairs:
        return ""
    counts = [words.counted("glazes", glazes)] * bool(glazes) + [words.counted("layerings", pairs)] * bool(pairs)
    return words("substitute.left_out", counts=words.listed(counts))
