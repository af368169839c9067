"""The plan's sum against the optimum of SciPy's solver for mixed integer programs (`scipy.optimize.milp`, HiGHS)."""

from __future__ import annotations

import random
from collections import Counter

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from combobook.entries import Status
from combobook.measures import Coats
from combobook.plan.share import Hand, limit_of, share
from combobook.plans import AGAIN, FIRST_GLAZES_EACH, Asked, Candidate, Why
from tests.judge.building import glaze


def shelf(seed: int, glazes: int, share_of_pairs: float) -> list[Candidate]:
    """Candidates of an invented shelf: some pairs, of mixed worth, some jars running low."""
    chance = random.Random(seed)
    jars = [
        glaze(f"g{n:02d}", status=chance.choice([Status.IN_USE, Status.IN_USE, Status.RUNNING_LOW]))
        for n in range(glazes)
    ]
    found = []
    for base in jars:
        for top in jars:
            if base is not top and chance.random() < share_of_pairs:
                why = chance.choice(list(Why))
                full = why.value + chance.choice([0, 10])
                worth = tuple(full // AGAIN**times for times in range(chance.randint(1, 3)))
                found.append(Candidate(base=base, top=top, coats=Coats(2, 1), clay=None, why=why, worth=worth))
    return found


def worth_of(hands: tuple[Hand, ...]) -> int:
    made: Counter[tuple[str, str]] = Counter()
    total = 0
    for each in (each for hand in hands for each in hand):
        total += each.worth[made[each.pair]]
        made[each.pair] += 1
    return total


def broken_rules(hands: tuple[Hand, ...], asked: Asked, limit: int) -> list[str]:
    found = []
    uses: Counter[str] = Counter()
    jars = {}
    at_table: Counter[tuple[int, tuple[str, str]]] = Counter()
    for student, hand in enumerate(hands, start=1):
        if len(hand) > asked.tiles:
            found.append(f"student {student} has {len(hand)} tiles")
        if len({each.base.id for each in hand}) > FIRST_GLAZES_EACH:
            found.append(f"student {student} opens too many first glazes")
        for each in hand:
            uses.update(each.pair)
            jars |= {each.base.id: each.base, each.top.id: each.top}
            at_table[asked.table_of(student), each.pair] += 1
    found += [f"{pair} twice at table {table}" for (table, pair), n in at_table.items() if n > 1]
    found += [f"{id_} is swamped" for id_, n in uses.items() if n > limit_of(jars[id_], limit)]
    return found


def optimum(candidates: list[Candidate], asked: Asked, limit: int) -> float:
    """The largest sum that any plan could have, found by a solver that knows nothing of ours."""
    students, pairs = range(asked.students), range(len(candidates))
    bases = sorted({each.base.id for each in candidates})
    x = {(s, p): n for n, (s, p) in enumerate((s, p) for s in students for p in pairs)}
    y = {(s, b): len(x) + n for n, (s, b) in enumerate((s, b) for s in students for b in bases)}
    steps = [(p, k) for p in pairs for k in range(len(candidates[p].worth))]
    z = {step: len(x) + len(y) + n for n, step in enumerate(steps)}
    size = len(x) + len(y) + len(z)
    gain = np.zeros(size)
    for (p, k), n in z.items():
        gain[n] = candidates[p].worth[k]
    rows: list[tuple[dict[int, float], float, float]] = []
    for s in students:
        rows.append(({x[s, p]: 1 for p in pairs}, 0, asked.tiles))
        rows.append(({y[s, b]: 1 for b in bases}, 0, FIRST_GLAZES_EACH))
        rows += [({x[s, p]: 1, y[s, candidates[p].base.id]: -1}, -np.inf, 0) for p in pairs]
    for p in pairs:
        made = {x[s, p]: 1.0 for s in students} | {z[q, k]: -1.0 for q, k in steps if q == p}
        rows.append((made, 0, 0))
        for table in range(1, asked.tables + 1):
            rows.append(({x[s, p]: 1 for s in students if asked.table_of(s + 1) == table}, 0, 1))
    for id_, jar in {jar.id: jar for each in candidates for jar in (each.base, each.top)}.items():
        asking = {x[s, p]: 1.0 for s in students for p in pairs if id_ in candidates[p].pair}
        rows.append((asking, 0, limit_of(jar, limit)))
    matrix = np.zeros((len(rows), size))
    for n, (row, _, _) in enumerate(rows):
        for column, value in row.items():
            matrix[n, column] = value
    found = milp(
        -gain,
        constraints=LinearConstraint(matrix, [row[1] for row in rows], [row[2] for row in rows]),
        integrality=np.ones(size),
        bounds=Bounds(0, 1),
    )
    assert found.success, found.message
    return float(-found.fun)


def at_random(candidates: list[Candidate], asked: Asked, limit: int, seed: int) -> tuple[Hand, ...]:
    """A plan that keeps the rules and otherwise takes what comes."""
    chance = random.Random(seed)
    hands: list[Hand] = []
    made: Counter[tuple[str, str]] = Counter()
    uses: Counter[str] = Counter()
    at_table: set[tuple[int, tuple[str, str]]] = set()
    for student in range(1, asked.students + 1):
        hand: list[Candidate] = []
        for each in chance.sample(candidates, len(candidates)):
            bases = {other.base.id for other in hand} | {each.base.id}
            if (
                len(hand) < asked.tiles
                and len(bases) <= FIRST_GLAZES_EACH
                and made[each.pair] < len(each.worth)
                and (asked.table_of(student), each.pair) not in at_table
                and all(uses[jar.id] < limit_of(jar, limit) for jar in (each.base, each.top))
            ):
                hand.append(each)
                made[each.pair] += 1
                uses.update(each.pair)
                at_table.add((asked.table_of(student), each.pair))
        hands.append(tuple(hand))
    return tuple(hands)


SMALL = [
    (seed, Asked(students=2 + seed % 4, tiles=1 + seed % 3, table=2 + seed % 2, seed=seed), 3 + seed % 4, 2 + seed % 3)
    for seed in range(20)
]


@pytest.mark.parametrize(("seed", "asked", "glazes", "limit"), SMALL, ids=[str(case[0]) for case in SMALL])
def test_a_small_plan_is_worth_at_least_95_hundredths_of_the_best_there_is(
    seed: int, asked: Asked, glazes: int, limit: int
) -> None:
    candidates = shelf(seed, glazes, 0.7)
    hands = share(candidates, asked, limit)
    assert broken_rules(hands, asked, limit) == []
    best = optimum(candidates, asked, limit)
    assert best > 0
    assert 0.95 * best <= worth_of(hands) <= best + 1e-6


@pytest.mark.parametrize("seed", range(6))
def test_a_large_plan_is_never_worth_less_than_one_made_at_random(seed: int) -> None:
    candidates, asked = shelf(seed, 24, 0.6), Asked(students=28, tiles=3, seed=seed)
    limit = 14
    hands = share(candidates, asked, limit)
    assert broken_rules(hands, asked, limit) == []
    for other in range(20):
        assert worth_of(hands) >= worth_of(at_random(candidates, asked, limit, other))


def test_the_same_shelf_and_seed_give_the_same_hands_and_another_seed_may_not() -> None:
    candidates = shelf(5, 12, 0.8)
    one = share(candidates, Asked(seed=3), 14)
    assert one == share(candidates, Asked(seed=3), 14)
    assert one != share(candidates, Asked(seed=4), 14)


def test_the_checks_of_these_tests_would_see_a_broken_plan() -> None:
    candidates = shelf(1, 4, 1.0)
    one = candidates[0]
    assert broken_rules(((one,), (one,)), Asked(students=2, tiles=1, table=2), 9) == [f"{one.pair} twice at table 1"]
    assert f"{one.base.id} is swamped" in broken_rules(((one,),), Asked(students=1, tiles=1), 0)
