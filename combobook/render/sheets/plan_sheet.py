"""The plan on paper: one list for the wall, what to pour and order, the reckoning, and a slip for each student."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from combobook.edition import Edition
from combobook.plans import Ground, Plan, PlannedTile, Pour
from combobook.problems import Problem
from combobook.render.letters import Run, wrapped
from combobook.render.sheets.cut import too_small
from combobook.render.sheets.frame import frame, printed
from combobook.wording import Words, coats_words, number

PATH = "print/plan.pdf"
TILES_A_SLIP = 4
SLIP_HIGH, SLIPS_ACROSS = 52.0, 2
"""mm: what a hand of four takes; two slips stand side by side between the sheet's own head and foot."""
_ROOM, _SIZE, _MARK = 88.0, 3.3, 18.0
"""mm: a slip's line on the narrowest paper (A4), its letters, and the mark before the line."""
_TITLE = 13.0
"""mm above the slips: for the heading on the first of their sheets, free on the others."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StudentView:
    """One line of the list on the wall."""

    number: str
    table: str
    first: str
    """Names of the first glazes."""
    tiles: tuple[str, ...]
    """`L105: BI first, then LW`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PourView:
    """One line of the list for pouring and ordering."""

    mark: str
    name: str
    tiles: str
    tables: str
    needed: str
    pour: str
    left: str
    buy: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipTile:
    mark: str
    lines: tuple[str, ...]
    made: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipView:
    """A student's own tiles, to be cut out."""

    title: str
    lead: str
    tiles: tuple[SlipTile, ...]


def plan_sheet(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """Nothing where no plan was made; slips as many on a sheet of `paper` as it holds.

    Slips stand between head and foot like the lists: a strip of words of their own would be read out sheet after sheet.
    """
    plan, paper, words = edition.plan, edition.book.studio.paper.value, edition.words
    if plan is None:
        return {}, ()
    furnished = frame(edition, words("plan.title"), paper, key=())
    down = int((furnished.height - _TITLE) // SLIP_HIGH)
    if down < 1 or furnished.width < SLIPS_ACROSS * (_ROOM + 6):
        return {}, (too_small(edition, "plan.pdf"),)
    slips = tuple(slip for student in range(1, plan.asked.students + 1) for slip in _slips(plan, student, words))
    return printed(
        edition,
        "print/plan.html",
        path=PATH,
        furnished=furnished,
        styles=("print-plan.css",),
        lead=lead(plan, words),
        students=tuple(_student(plan, student, words) for student in range(1, plan.asked.students + 1)),
        pours=tuple(_pour(pour, words) for pour in plan.pours),
        assumed=words.lines("plan.pour.assumed"),
        marked=words("plan.pour.marked") if any(pour.covers_assumed for pour in plan.pours) else "",
        unused=words("plan.unused", glazes=_names(plan.unused)) if plan.unused else words("plan.unused_none"),
        reckoning=tuple(reckoning(plan, words)),
        out=tuple(left_out(plan, words)),
        sheets=_rows(slips, down),
        slips_title=words("plan.slips"),
    )


def lead(plan: Plan, words: Words) -> str:
    """How many tiles, for how many, and how many of them are new."""
    if not plan.tiles:
        return words("plan.none")
    return words(
        "plan.lead",
        tiles=words.counted("tiles", len(plan.tiles)),
        students=words.counted("students", plan.asked.students),
        new=words.counted("pairs", plan.new_pairs),
    )


def reckoning(plan: Plan, words: Words) -> Iterator[str]:
    """The sum in words, how far the shelf is from enough, what waits for the kiln."""
    yield words("plan.sum", worth=Fraction(plan.worth, 100))
    yield words("plan.weights")
    enough = plan.missing == 0
    yield words(
        "plan.enough" if enough else "plan.until",
        pairs=words.counted("pairs", plan.pairs),
        missing=words.counted("tiles", plan.missing),
        plans=words.counted("plans", plan.plans_until_enough),
        each=plan.asked.in_all,
    )
    if plan.not_fired:
        marks = tuple(dict.fromkeys(tile.tile.value for tile in plan.not_fired))
        yield words("plan.not_fired", tiles=words.counted("tiles", len(marks)), marks=marks)
    yield words("plan.jar_limit", tiles=words.counted("tiles", plan.jar_limit))


def left_out(plan: Plan, words: Words) -> Iterator[str]:
    """What is in no plan, and why; the ground of most first."""
    by_ground: dict[Ground, list[str]] = {}
    for ground, each in plan.left_out:
        by_ground.setdefault(ground, []).append(each.name.value)
    for ground, names in by_ground.items():
        yield words(f"plan.out.{_key(ground)}", names=tuple(names))
    for ground, count in sorted(plan.pairs_left_out.items(), key=lambda pair: -pair[1]):
        yield words(f"plan.out.{_key(ground)}", pairs=words.counted("pairs", count))


def _key(ground: Ground) -> str:
    return ground.value.replace(" ", "_")


def _names(glazes: Sequence[object]) -> tuple[str, ...]:
    return tuple(glaze.name.value for glaze in glazes)  # type: ignore[attr-defined]


def _student(plan: Plan, student: int, words: Words) -> StudentView:
    tiles = plan.of_student(student)
    first = dict.fromkeys(tile.candidate.base.name.value for tile in tiles)
    return StudentView(
        number=str(student),
        table=str(plan.asked.table_of(student)),
        first=words.listed(tuple(first)),
        tiles=tuple(
            words("plan.tile", mark=t.mark, base=t.candidate.base.mark.value, top=t.candidate.top.mark.value)
            for t in tiles
        ),
    )


def _pour(pour: Pour, words: Words) -> PourView:
    return PourView(
        mark=pour.glaze.mark.value,
        name=pour.glaze.name.value + ("*" if pour.covers_assumed else ""),
        tiles=str(pour.tiles),
        tables=words.listed(tuple(str(table) for table in pour.tables)),
        needed=millilitres(pour.needed),
        pour=millilitres(pour.poured),
        left=words("not_known") if pour.left_after is None else millilitres(pour.left_after),
        buy=words("not_known") if pour.jars_to_buy is None else str(pour.jars_to_buy),
    )


def millilitres(litres: Fraction) -> str:
    """Whole millilitres, rounded up; what is missing is said as 0."""
    return number(max(0, -(-litres * 1000 // 1)))


def _slips(plan: Plan, student: int, words: Words) -> Iterator[SlipView]:
    """A student's slips: more than one where the tiles have no room on one."""
    tiles = plan.of_student(student)
    parts = [tiles[start : start + TILES_A_SLIP] for start in range(0, len(tiles), TILES_A_SLIP)]
    for n, part in enumerate(parts, start=1):
        more = words("plan.slip_part", n=n, m=len(parts)) if len(parts) > 1 else ""
        title = words("plan.slip", student=student, table=plan.asked.table_of(student))
        yield SlipView(
            title=f"{title}{more}",
            lead=words("plan.slip_lead"),
            tiles=tuple(_slip_tile(tile, words) for tile in part),
        )


def _rows(slips: Sequence[SlipView], down: int) -> tuple[tuple[tuple[SlipView, ...], ...], ...]:
    """The slips by sheet, then by row."""
    rows = [tuple(slips[start : start + SLIPS_ACROSS]) for start in range(0, len(slips), SLIPS_ACROSS)]
    return tuple(tuple(rows[start : start + down]) for start in range(0, len(rows), down))


def _slip_tile(tile: PlannedTile, words: Words) -> SlipTile:
    made = tile.candidate
    order = coats_words(made.base.name.value, made.top.name.value, made.coats, words)
    lines = wrapped((Run(order),), _SIZE, _ROOM - _MARK)
    clay = words("plan.any_clay") if made.clay is None else words("plan.on_clay", clay=made.clay.name.value)
    return SlipTile(
        mark=tile.mark,
        lines=tuple("".join(run.text for run in line) for line in lines),
        made=words("plan.made", clay=clay, why=words(f"plan.why.{made.why.name.lower()}")),
    )
