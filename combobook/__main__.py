"""`python3 -m combobook`: set up a fresh checkout if need be, then run the command."""

from __future__ import annotations

import sys

from combobook import bootstrap

# Only these make sheets, and only sheets need the system's text libraries.
MAKE_SHEETS = ("publish", "show", "plan")


def main() -> None:
    """The console script: ends the process with the exit code of the command."""
    words = [word for word in sys.argv[1:] if not word.startswith("-")]
    asks_for_help = "--help" in sys.argv
    makes_sheets = words[:1] and words[0] in MAKE_SHEETS and not asks_for_help
    bootstrap.prepare("combobook", needs=("sheets",) if makes_sheets else ())
    from combobook.cli import run

    raise SystemExit(run(sys.argv[1:]))


if __name__ == "__main__":
    main()
