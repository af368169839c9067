"""The shelf as sheets need it: which glazes stand on it, and which of their pairs the book has judged."""

from __future__ import annotations

from collections.abc import Iterable

from combobook.edition import Edition
from combobook.entries import Glaze, Status
from combobook.render.chart.content import mark_order
from combobook.verdicts import GlazeVerdict, LayeringVerdict

_OFF = (Status.OUT, Status.RETIRED)


def stands_on_it(glaze: Glaze) -> bool:
    """Neither out nor retired; where nobody wrote it down, the jar is counted as there."""
    return glaze.status.value not in _OFF


def on_the_shelf(edition: Edition) -> tuple[GlazeVerdict, ...]:
    """Every glaze on the shelf, judged alone, by mark."""
    return _by_mark(edition, on=True)


def off_the_shelf(edition: Edition) -> tuple[GlazeVerdict, ...]:
    """Every glaze that is out or retired, by mark."""
    return _by_mark(edition, on=False)


def pairs_on_the_shelf(edition: Edition) -> tuple[LayeringVerdict, ...]:
    """Every layering of two glazes on the shelf that somebody wrote down, by the first glaze's mark, then the top's."""
    return _pairs(edition.judged.layerings.values())


def every_pair_on_the_shelf(edition: Edition) -> tuple[LayeringVerdict, ...]:
    """Every ordered pair of glazes on the shelf, tested or not, likewise; of an edition without them those written."""
    return _pairs((edition.pairs or edition.judged.layerings).values())


def _pairs(verdicts: Iterable[LayeringVerdict]) -> tuple[LayeringVerdict, ...]:
    shown = (v for v in verdicts if stands_on_it(v.base) and stands_on_it(v.top))
    return tuple(sorted(shown, key=lambda v: (mark_order(v.base), mark_order(v.top))))


def _by_mark(edition: Edition, *, on: bool) -> tuple[GlazeVerdict, ...]:
    shown = (v for v in edition.judged.glazes.values() if stands_on_it(v.glaze) is on)
    return tuple(sorted(shown, key=lambda v: mark_order(v.glaze)))
