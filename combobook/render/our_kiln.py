"""Glazes whose label does not take the studio's cone: what is said instead of how to brush them.

Verdicts stay as they were judged. A margin or a band would read as if the piece could go into the kiln, so pages and
sheets that tell what to do take it from here.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TypeVar

from combobook.book import Book
from combobook.cones import ConeRange
from combobook.entries import Glaze
from combobook.render.said import Verdict
from combobook.verdicts import Band, GlazeVerdict, LayeringVerdict, NoBand
from combobook.wording import MOVE_KEYS, Words, to_do_words

V = TypeVar("V", GlazeVerdict, LayeringVerdict, Verdict)
MARK = "no-kiln"
"""The mark that stands beside these words instead of that of how it moves."""
_KEPT = ("open", "no_height")
"""Reasons for no place that say something of the form itself."""


def layers(verdict: Verdict) -> tuple[Glaze, ...]:
    """The glazes, first to last."""
    return (verdict.glaze,) if isinstance(verdict, GlazeVerdict) else (verdict.base, verdict.top)


def misses(glaze: Glaze, book: Book) -> bool:
    """Its label's range does not take the studio's cone; false where nobody knows that range."""
    span = glaze.cone.value
    return isinstance(span, ConeRange) and book.studio.cone.value not in span


def unread(glaze: Glaze) -> bool:
    """Nobody has written down the cone on its label."""
    return not isinstance(glaze.cone.value, ConeRange)


def refused(verdict: Verdict, book: Book) -> bool:
    """One of its labels does not take the studio's cone: nothing with it goes into this kiln."""
    return any(misses(glaze, book) for glaze in layers(verdict))


def why_refused(verdict: Verdict, book: Book, words: Words) -> Iterator[str]:
    """A sentence for each label that does not take the studio's cone."""
    for glaze in layers(verdict):
        span = glaze.cone.value
        if isinstance(span, ConeRange) and misses(glaze, book):
            key = "one" if span.low == span.high else "range"
            facts = {"glaze": glaze.name.value, "cone": book.studio.cone.value, "low": span.low, "high": span.high}
            yield words(f"other_kiln.{key}", **facts)


def to_do(verdict: Verdict, book: Book, words: Words, *, short: bool = False) -> str:
    """The one instruction about running, or that it goes into no kiln of this cone; `short` as on charts and cards."""
    if not refused(verdict, book):
        return to_do_words(verdict.movement, words)
    return words("other_kiln.short" if short else "other_kiln.to_do", cone=book.studio.cone.value)


def to_do_key(verdict: Verdict, book: Book) -> tuple[str, str]:
    """The key of that instruction, and the mark beside it: how it moves, or that it goes into no kiln of this cone."""
    key = MOVE_KEYS[verdict.movement.cls]
    return ("no_kiln", MARK) if refused(verdict, book) else (key, key)


def shown(verdict: V, book: Book) -> V:
    """The verdict as its places are drawn: of what goes into no kiln of this cone there is no place on any form."""
    out = [glaze.id for glaze in layers(verdict) if misses(glaze, book)]
    if not out:
        return verdict
    first_too = layers(verdict)[0].id in out
    return replace(verdict, bands=tuple(_nowhere(band, book, first_too=first_too) for band in verdict.bands))


def _nowhere(band: Band, book: Book, *, first_too: bool) -> Band:
    """No place on this form, and none for the first glaze alone where it is that one's label."""
    if first_too:
        band = replace(band, base_to_mm=None, base_from_mm=0)
    apart = any(found.wording == "no_shared_cone" for found in band.none)  # That says it already.
    why = NoBand(rule="F7", wording="other_kiln", facts=(("cone", book.studio.cone.value),))
    return replace(
        band,
        inside=None if band.inside is None else False,
        inside_to_mm=None,
        from_mm=None,
        to_mm=None,
        none=band.none if apart else (why, *(found for found in band.none if found.wording in _KEPT)),
        margin_mm=0,
        lip_mm=0,
        reach_mm=None,
        third_mm=None,
    )
