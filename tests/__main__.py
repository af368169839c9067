"""`python3 -m tests [ARGS]`: set up what the tests need, then run pytest with ARGS; its exit code passes through."""

from __future__ import annotations

import os
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
ON_ALL_CORES = ("-n", str(os.cpu_count() or 1), "--dist", "loadfile")
"""A file stays on one core, so that what it makes once is made once. `-n 0` runs all in this process."""


def run(module: str, leading: tuple[str, ...] = ()) -> int:
    """Set up, then pytest with `leading` and the command line's arguments, from the top of the checkout."""
    os.chdir(str(ROOT))
    if str(ROOT) not in sys.path:
        sys.path.insert(0, str(ROOT))
    from combobook import bootstrap, machine

    bootstrap.prepare(module, extra="tests", needs=(machine.SHEETS, machine.TESTS))
    import pytest

    asked = sys.argv[1:]
    return int(pytest.main([*leading, *(() if "-n" in asked else ON_ALL_CORES), *asked]))


if __name__ == "__main__":
    raise SystemExit(run("tests"))
