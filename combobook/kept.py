"""What this process worked out before from the same values: `show` does not work it out again. Leaf module."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import Any, Generic, TypeVar

V = TypeVar("V")


class Kept(Generic[V]):
    """The newest result under each key, given again while what it was made from is equal, and only then.

    `given` must hold everything that the result depends on, all of it values that nobody changes. What stayed the
    same object is equal without a look, so that results which are made from other kept ones are found at once.
    """

    def __init__(self) -> None:
        self._known: dict[Hashable, tuple[tuple[Any, ...], V]] = {}

    def __call__(self, key: Hashable, given: tuple[Any, ...], make: Callable[[], V]) -> V:
        before = self._known.get(key)
        if before is not None and before[0] == given:
            return before[1]
        made = make()
        self._known[key] = given, made
        return made
