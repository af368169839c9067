"""`python -m tests.gallery CASE…`: print what cases get now; with `--write` make it what they expect."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from tests.gallery.cases import GALLERY, case_names, found, lay_out

write = "--write" in sys.argv
for case in [word for word in sys.argv[1:] if not word.startswith("-")] or case_names():
    with tempfile.TemporaryDirectory() as scratch:
        text = found(lay_out(case, Path(scratch)))
    print(f"== {case}\n{text}")
    if write:
        (GALLERY / case / "expected.txt").write_text(text, encoding="utf-8")
