"""`python3 -m tests [ARGS]`: set up what the tests need, then run pytest with ARGS; its exit code passes through."""

from __future__ import annotations

import os
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent


def run(module: str, leading: tuple[str, ...] = ()) -> int:
    """Set up, then pytest with `leading` and the command line's arguments, from the top of the checkout."""
    os.chdir(str(ROOT))
    if str(ROOT) not in sys.path:
        sys.path.insert(0, str(ROOT))
    from combobook import bootstrap, machine

    bootstrap.prepare(module, extra="tests", needs=(machine.SHEETS, machine.TESTS))
    import pytest

    return int(pytest.main([*leading, *sys.argv[1:]]))


if __name__ == "__main__":
    raise SystemExit(run("tests"))
