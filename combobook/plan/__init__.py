"""Plan: which tiles to make next, shared out over a class.

The sum that a plan maximises: each tile adds the worth of what it would show, in hundredths of a new ordered pair
(`plans.Why`): 100 for an order that nobody has fired; 80 where nobody knows whether it runs; 70 where tiles disagree;
60 where all evidence is old; 40 where it was seen once; 25 where it was repeated; 10 more where the other order has a
tile; half of all that where a jar is running low; a third for each further tile of the same pair. All of these are the
house's. It is held to: each student's tiles have at most two first glazes and are all different; no two at a table make
the same; no jar is asked for by more than its share of tiles.
"""

from __future__ import annotations

from collections.abc import Mapping

from combobook.book import Book
from combobook.plan.candidates import survey
from combobook.plan.pour import jar_limit, pours, unused
from combobook.plan.share import share
from combobook.plans import Asked, Plan, PlannedTile, Why
from combobook.problems import Problem
from combobook.tile_marks import marks_after
from combobook.verdicts import LayeringVerdict

__all__ = ["plan"]


def plan(
    book: Book, verdicts: Mapping[tuple[str, str], LayeringVerdict], asked: Asked
) -> tuple[Plan, tuple[Problem, ...]]:
    """The plan for this class; the same for the same book and `asked`. Finds no problems: an empty plan says why.

    `verdicts` are those of all ordered pairs of the book's glazes, by (base id, top id).
    """
    found = survey(book, verdicts)
    limit = jar_limit(book, asked)
    hands = share(found.candidates, asked, limit)
    marks = marks_after(book)
    tiles: list[PlannedTile] = []
    made: dict[tuple[str, str], int] = {}
    for student, hand in enumerate(hands, start=1):
        for each in hand:
            times = made[each.pair] = made.get(each.pair, 0) + 1
            tiles.append(
                PlannedTile(
                    mark=next(marks),
                    student=student,
                    table=asked.table_of(student),
                    candidate=each,
                    worth=each.worth[times - 1],
                )
            )
    planned = tuple(tiles)
    return Plan(
        asked=asked,
        tiles=planned,
        worth=sum(tile.worth for tile in planned),
        new_pairs=len({tile.candidate.pair for tile in planned if tile.candidate.why is Why.NEW}),
        pairs=found.pairs,
        missing=found.missing,
        left_out=found.left_out,
        pairs_left_out=found.pairs_left_out,
        pours=pours(planned),
        unused=unused(book),
        not_fired=found.not_fired,
        jar_limit=limit,
    ), ()
