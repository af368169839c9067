"""`python3 -m tests.bench [PART…]`: check, text, picture, chart, cut, book, site, screen, publish, growth; all where none is named.

Prints ratios to floors measured in the same run, on files in memory (/dev/shm). Its exit code says whether everything
asked for could be measured, never how fast it was.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

MEMORY = Path("/dev/shm")


def main(names: list[str]) -> int:
    """0 when each part was measured, 1 when one could not be, 2 for a part that there is not."""
    from tests.bench.parts import PARTS

    known = {part.__name__: part for part in PARTS}
    if wrong := [name for name in names if name not in known]:
        print(f"no part called {', '.join(wrong)}; there are {', '.join(known)}", file=sys.stderr)
        return 2
    missing = 0
    for name in names or known:
        with tempfile.TemporaryDirectory(prefix="bench-", dir=MEMORY if MEMORY.is_dir() else None) as scratch:
            print(f"\n{name}", flush=True)
            try:
                for line in known[name](Path(scratch)):
                    print(f"  {line}", flush=True)
            except Exception as why:  # noqa: BLE001 - one part that cannot run must not hide the others
                print(f"  NOT MEASURED: {type(why).__name__}: {why}", flush=True)
                missing += 1
    return 1 if missing else 0


if __name__ == "__main__":
    from combobook import bootstrap, machine

    bootstrap.prepare("tests.bench", extra="tests", needs=(machine.SHEETS,))
    raise SystemExit(main(sys.argv[1:]))
