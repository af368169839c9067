"""`python3 -m tests.bench.stopwatch FOLDER`: one folder through the stages, their times and the memory, as JSON."""

from __future__ import annotations

import json
import resource
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


class Stopwatch:
    """Progress that keeps how long each stage took."""

    def __init__(self) -> None:
        self.spent: dict[str, float] = {}

    @contextmanager
    def stage(self, name: str) -> Iterator[None]:
        began = time.perf_counter()
        yield
        self.spent[name] = time.perf_counter() - began


def measured(folder: Path) -> dict[str, float]:
    """Seconds of every stage up to site and data, and the peak memory in MB under `memory`."""
    from combobook.render.data import data
    from combobook.render.site import site
    from tests.bench.editions import edition_of

    watch = Stopwatch()
    edition = edition_of(folder, folder.parent / "cache-growth", watch)
    for name, stage in (("render: site", site), ("render: data", data)):
        with watch.stage(name):
            stage(edition)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return {**watch.spent, "memory": peak}


if __name__ == "__main__":
    print(json.dumps(measured(Path(sys.argv[1]))))
