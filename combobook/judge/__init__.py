"""Judge: what a book says about food, movement, places, evidence and fire, each verdict with its reasons.

`judge` takes the linked book to every verdict; `judge_pair` judges one ordered pair, whether anybody wrote an entry for
it or not, `judge_pairs` many of them, `judge_every_pair` all. The rules are functions named for rules.md: food (F1 to
F9), movement (M1 to M3), bands (P1 to P8).
"""

from __future__ import annotations

from combobook.judge.bench import judge, judge_every_pair, judge_pair, judge_pairs

__all__ = ["judge", "judge_every_pair", "judge_pair", "judge_pairs"]
