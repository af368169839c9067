"""Sharing tiles out over a class: hands of tiles whose sum is as large as we can make it.

Choosing the best hand for one student while the others hold theirs is easy; doing so again and again, and now and then
taking a few hands back at random, comes close to the best plan. tests/plan compares it with a solver's optimum.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from functools import partial
from itertools import combinations_with_replacement

from combobook.entries import Glaze, Status
from combobook.kept import Kept
from combobook.plans import FIRST_GLAZES_EACH, Asked, Candidate

Hand = tuple[Candidate, ...]
Pair = tuple[str, str]
Offer = tuple[float, int, float, Candidate]
_MOST_BASES = 16
"""First glazes that are looked at together for one hand."""
SHAKES = 150
"""How often a few hands are taken back and dealt again; the better plan stays."""
_SHAKEN_AT_ONCE = (2, 3, 5, 8)
_EFFORT = 1_000_000
"""Candidates looked at, hand after hand, at most in all, so that large shelves do not keep anybody waiting."""
_NEAR = 0.99
"""Of what no plan can be worth more than: so near is near enough."""

_KEPT: Kept[tuple[tuple[Pair, ...], ...]] = Kept()


def share(candidates: Sequence[Candidate], asked: Asked, jar_limit: int) -> tuple[Hand, ...]:
    """A hand for each student, as the rules of `plan` have it; hands are short where the shelf has no more to ask."""
    of = {each.pair: each for each in candidates}
    worths = tuple(
        (each.pair, each.worth, limit_of(each.base, jar_limit), limit_of(each.top, jar_limit)) for each in candidates
    )
    dealt = _KEPT("hands", (worths, asked), partial(_dealt, candidates, asked, jar_limit))
    return tuple(tuple(of[pair] for pair in hand) for hand in dealt)


def _dealt(candidates: Sequence[Candidate], asked: Asked, jar_limit: int) -> tuple[tuple[Pair, ...], ...]:
    """The pairs of each hand. They depend on pairs, worths, limits of jars and `asked` alone."""
    chance = random.Random(asked.seed)
    deal = _Deal(candidates, asked, jar_limit, chance)
    best = list(deal.hands)
    for _ in range(SHAKES):
        if deal.worth >= _NEAR * deal.most or deal.dealt > deal.patience:
            break
        before = deal.worth
        deal.shake()
        if deal.worth < before:
            deal.set(best)
        else:
            best = list(deal.hands)
    return tuple(tuple(sorted(each.pair for each in hand)) for hand in best)


class _Deal:
    """Hands as they stand, and what they use up."""

    def __init__(self, candidates: Sequence[Candidate], asked: Asked, jar_limit: int, chance: random.Random) -> None:
        self.asked, self.chance = asked, chance
        self.rank = {each.pair: chance.random() for each in candidates}
        """Among equals, chance decides; the seed decides chance."""
        self.by_base: dict[str, list[Candidate]] = {}
        for each in candidates:
            self.by_base.setdefault(each.base.id, []).append(each)
        jars = {glaze.id: glaze for each in candidates for glaze in (each.base, each.top)}
        self.limit = {id_: limit_of(glaze, jar_limit) for id_, glaze in jars.items()}
        self.most = sum(sorted((w for each in candidates for w in each.worth), reverse=True)[: asked.in_all])
        """No plan can be worth more."""
        self.dealt = 0
        self.patience = min(2_500, max(2 * asked.students, _EFFORT // max(1, len(candidates))))
        """Hands dealt at most."""
        self.taste: dict[tuple[str, str], float] = {}
        """While hands are shaken: by how much each pair is liked less than its worth. Else empty."""
        self.set([()] * asked.students)
        self._better(range(asked.students))

    def set(self, hands: Iterable[Hand]) -> None:
        self.hands: list[Hand] = [()] * self.asked.students
        self.made: Counter[tuple[str, str]] = Counter()
        self.uses: Counter[str] = Counter()
        self.at_table: Counter[tuple[int, tuple[str, str]]] = Counter()
        self.worth = 0
        for student, hand in enumerate(hands):
            self._give(student, hand)

    def shake(self) -> None:
        """Takes a few hands back, deals them anew in another order, then betters all."""
        few = min(self.chance.choice(_SHAKEN_AT_ONCE), self.asked.students)
        some = self.chance.sample(range(self.asked.students), few)
        for student in some:
            self._take(student)
        self.rank = {pair: self.chance.random() for pair in self.rank}
        self.taste = {pair: self.chance.random() for pair in self.rank}
        for student in some:
            self._give(student, self._best_hand(student))
        self.taste = {}
        self._better(self.chance.sample(range(self.asked.students), self.asked.students))

    def _better(self, students: Sequence[int]) -> None:
        """Deals each student the best hand beside the others', until no hand gets better."""
        again = True
        while again and self.dealt <= self.patience:
            again = False
            for student in students:
                held, before = self.hands[student], self.worth
                self._take(student)
                self._give(student, self._best_hand(student))
                if self.worth > before:
                    again = True
                elif self.worth < before:
                    self._take(student)
                    self._give(student, held)

    def _give(self, student: int, hand: Hand) -> None:
        for each in hand:
            self.worth += each.worth[self.made[each.pair]]
            self.made[each.pair] += 1
            self.uses.update(each.pair)
            self.at_table[self._table(student), each.pair] += 1
        self.hands[student] = hand

    def _take(self, student: int) -> None:
        for each in self.hands[student]:
            self.made[each.pair] -= 1
            self.worth -= each.worth[self.made[each.pair]]
            self.uses.subtract(each.pair)
            self.at_table[self._table(student), each.pair] -= 1
        self.hands[student] = ()

    def _table(self, student: int) -> int:
        return student // self.asked.table

    def _best_hand(self, student: int) -> Hand:
        """The best tiles of at most two first glazes that the others leave."""
        self.dealt += 1
        table = self._table(student)
        offers = {
            base: sorted((self._offer(each) for each in some if self._open(each, table)), key=lambda offer: offer[:3])
            for base, some in self.by_base.items()
            if self.limit[base] > self.uses[base]
        }
        best: Hand = ()
        best_key: tuple[float, int, float] = (0, 0, 0.0)
        for chosen in self._promising(offers):
            some = [offer for base in dict.fromkeys(chosen) for offer in offers[base][: 2 * self.asked.tiles]]
            likely = sorted(some, key=lambda offer: offer[:3])
            if -sum(offer[0] for offer in likely[: self.asked.tiles]) < best_key[0]:
                continue
            hand = self._within_jars(each for *_, each in likely)
            key = (
                sum(self._liked(each) for each in hand),
                -sum(self.uses[glaze] for each in hand for glaze in each.pair),
                self.rank[hand[0].pair] if hand else 0.0,
            )
            if key > best_key or not best:
                best, best_key = hand, key
        return best

    def _promising(self, offers: Mapping[str, Sequence[Offer]]) -> Iterable[tuple[str, ...]]:
        """Pairs of first glazes; on a large shelf only those of the glazes that promise most by themselves."""
        tiles = self.asked.tiles
        promise = {base: -sum(offer[0] for offer in some[:tiles]) for base, some in offers.items() if some}
        bases = sorted(promise, key=lambda base: (-promise[base], offers[base][0][:3]))[:_MOST_BASES]
        return combinations_with_replacement(bases, FIRST_GLAZES_EACH)

    def _offer(self, each: Candidate) -> Offer:
        """Sorts by worth, then by how little its jars are asked for, then by chance."""
        used = self.uses[each.base.id] + self.uses[each.top.id]
        return (-self._liked(each), used, self.rank[each.pair], each)

    def _liked(self, each: Candidate) -> float:
        """What the next tile of it is worth; less by chance while hands are shaken."""
        worth = each.worth[self.made[each.pair]]
        return worth * (1 - self.taste[each.pair]) if self.taste else worth

    def _open(self, each: Candidate, table: int) -> bool:
        return (
            self.made[each.pair] < len(each.worth)
            and not self.at_table[table, each.pair]
            and self.uses[each.top.id] < self.limit[each.top.id]
        )

    def _within_jars(self, wanted: Iterable[Candidate]) -> Hand:
        hand: list[Candidate] = []
        asked_for: Counter[str] = Counter()
        for each in wanted:
            if all(self.uses[id_] + asked_for[id_] < self.limit[id_] for id_ in each.pair):
                hand.append(each)
                asked_for.update(each.pair)
            if len(hand) == self.asked.tiles:
                break
        return tuple(hand)


def limit_of(glaze: Glaze, jar_limit: int) -> int:
    """Tiles that may ask for this jar; half where it is running low."""
    return max(1, jar_limit // 2) if glaze.status.value is Status.RUNNING_LOW else jar_limit
