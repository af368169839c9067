"""`python3 -m tests.long [ARGS]`: only the tests marked `long` (fresh set-ups, big studios), which the suite leaves out."""

from __future__ import annotations

from tests.__main__ import run

if __name__ == "__main__":
    raise SystemExit(run("tests.long", ("-m", "long")))
