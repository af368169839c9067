"""Which stage is running and how long each took: drawn on a terminal, plain lines elsewhere, silent for `check`."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager
from typing import Protocol, TextIO


class Progress(Protocol):
    """Told of each stage by its name in the pass."""

    def stage(self, name: str) -> AbstractContextManager[None]:
        """Entered when the stage begins, left when it ends (by an exception too)."""
        ...


class Silent:
    """Says nothing: for commands that end before anybody wonders."""

    @contextmanager
    def stage(self, name: str) -> Iterator[None]:
        yield


class PlainLines:
    """One line a finished stage, for logs and pipes: `render: site  1.24 s`."""

    def __init__(self, to: TextIO) -> None:
        self._to = to

    @contextmanager
    def stage(self, name: str) -> Iterator[None]:
        began = time.perf_counter()
        yield
        self._to.write(f"{_line(name, began)}\n")
        self._to.flush()


class Drawn:
    """A moving line for the stage that runs, then a still one with its time."""

    def __init__(self) -> None:
        from rich.console import Console  # Only a terminal needs it, and it takes longer to import than `check` runs.

        self._console = Console(stderr=True, highlight=False, markup=False, emoji=False)

    @contextmanager
    def stage(self, name: str) -> Iterator[None]:
        began = time.perf_counter()
        with self._console.status(name):
            yield
        self._console.print(_line(name, began), style="dim")


def progress_here() -> Progress:
    """What suits standard error: drawn on a terminal, plain lines anywhere else."""
    return Drawn() if sys.stderr.isatty() else PlainLines(sys.stderr)


def _line(name: str, began: float) -> str:
    return f"{name:<20} {time.perf_counter() - began:6.2f} s"
