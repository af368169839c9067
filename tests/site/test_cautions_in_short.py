"""Cautions in a few words, for paper: each that the page has, and no other."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from combobook.judge import judge, judge_pair
from combobook.render.cautions import asks_first, cautions, clays_that_speak, every_in_short, only_some_clays
from combobook.theme import load_theme
from combobook.verdicts import LayeringVerdict
from combobook.wording import Words
from tests.site.test_cautions import BROWN, LOW, READINGS, one_coat_is_enough
from tests.studios import entry, log, make_with
from tests.why.test_account import ENTRY, GOOD_ROW, LOG, pond_lantern

COOL = {
    "firings/f02.md": "---\ncone: 6\ndate: 2026-10-20\nwitness:\n  middle: 04\n---\n",
    LOG: log(GOOD_ROW, "B2,FR,2,PL,1,Hod Brown,f02,middle,upright,no,none"),
}
KINDER = log(GOOD_ROW, "B2,FR,2,PL,1,Hod Brown,f01,middle,upright,no,crazing")
OLD = {**pond_lantern("coats: 1 to 3", "lot: L2"), LOG: log(f"{GOOD_ROW},,,,L1")}
BY_ITSELF = {**one_coat_is_enough(), LOG: log(GOOD_ROW, "B2,FR,2,,,Quarry White,f01,middle,upright,no,crazing")}
LOW_LABEL = {**pond_lantern("cone: 06 to 04"), ENTRY: entry("base: FR", "top: PL", "coats: 2 + 1", "on chart: no")}
REPORT = entry(
    "base: FR", "top: PL", "ware: cup or mug", "limits: FDA", "coats: 2 + 1", "clay: quarry-white", "cone: 6",
    f"lead: [{READINGS}]", f"cadmium: [{READINGS}]",
)  # fmt: skip


def short(changed: Mapping[str, str]) -> tuple[str, ...]:
    """The short cautions of the good studio's layering; as many as its page has whole sentences, at least."""
    book, _ = make_with(changed)
    judged, verdict = judge(book)[0], judge_pair(book, "ferry-rust", "pond-lantern")
    studio = book.studio
    theme, _ = load_theme(studio.theme.value, studio.language.value, studio.theme.place, studio.language.place)
    assert theme is not None
    words = Words(theme.table, studio.units.value)
    found = every_in_short(verdict, book, judged, words)
    assert len(found) == len(cautions(verdict, book, judged, words))
    assert not any(each.endswith(".") for each in found)
    return found


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        (one_coat_is_enough(), ()),
        (pond_lantern("coats: 2 to 3"), ("Fewer coats of Pond Lantern than its label names: ask your teacher first",)),
        (one_coat_is_enough(**BROWN), ("Seen only on Quarry White: on another clay keep it off food",)),
        (one_coat_is_enough(**BROWN, **COOL), ("On Hod Brown: keep it off food",)),
        (
            one_coat_is_enough(**BROWN, **{LOG: KINDER}),
            ("Kinder on Quarry White; the worse answer counts, on every clay",),
        ),
        (BY_ITSELF, ("By itself Ferry Rust is kept off food: ask your teacher first",)),
        (OLD, ("Seen only with an earlier jar, or from before the re-test date",)),
        (
            one_coat_is_enough(**{"lab/r1.md": REPORT}),
            ("The report speaks only of cup or mug, on Quarry White, at cone 6",),
        ),
        (LOW_LABEL, ("Not for this studio's kiln",)),
    ],
    ids=["none", "coats", "one clay", "worse clay", "kinder clay", "by itself", "old", "report", "no shared cone"],
)
def test_each_caution_has_its_few_words(changed: dict[str, str], said: tuple[str, ...]) -> None:
    assert short(changed) == said


def layering(changed: Mapping[str, str]) -> LayeringVerdict:
    book, _ = make_with(changed)
    return judge_pair(book, "ferry-rust", "pond-lantern")


@pytest.mark.parametrize(
    ("changed", "asks"),
    [
        (one_coat_is_enough(**BROWN), False),
        (one_coat_is_enough(**{"lab/r1.md": REPORT}), False),
        (pond_lantern("coats: 2 to 3"), True),
        (BY_ITSELF, True),
        (OLD, True),
    ],
    ids=["one clay", "report", "coats", "by itself", "old"],
)
def test_coats_a_layer_by_itself_and_old_tiles_send_to_the_teacher_and_clays_do_not(
    changed: dict[str, str], asks: bool
) -> None:
    book, _ = make_with(changed)
    assert asks_first(layering(changed), judge(book)[0]) is asks


@pytest.mark.parametrize(
    ("changed", "some"),
    [(one_coat_is_enough(), False), (one_coat_is_enough(**BROWN), True), (one_coat_is_enough(**LOW), False)],
    ids=["all", "one of two", "the other melts"],
)
def test_only_a_clay_that_the_studio_can_fire_is_missed(changed: dict[str, str], some: bool) -> None:
    book, _ = make_with(changed)
    assert only_some_clays(layering(changed), book) is some
    assert clays_that_speak(layering(changed)) == ("Quarry White",)
