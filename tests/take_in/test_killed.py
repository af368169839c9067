"""Take-in killed at any moment at which it touches the disk: all of it is there or nothing, and the next run ends it."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import pytest

from combobook import journal
from combobook.take_in import take_in
from tests.take_in import messy
from tests.take_in.classes import contents, errors, outside, studio

CHILD = """
import os, signal, sys
from pathlib import Path
left = [int(sys.argv[1])]
def dying(real):
    def call(*args, **named):
        left[0] -= 1
        if left[0] == 0:
            os.kill(os.getpid(), signal.SIGKILL)
        return real(*args, **named)
    return call
for name in ("mkdir", "fsync", "link", "rename", "replace", "unlink", "rmdir"):
    setattr(os, name, dying(getattr(os, name)))
from combobook.take_in import take_in
take_in(Path(sys.argv[2]), Path(sys.argv[3]), None)
print(sys.argv[1], left[0])
"""
CALLS = 112
"""About how often a whole take-in of the messy class touches the disk; twenty moments of it are tried."""


def run(folder: Path, file: Path, moment: int) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", CHILD, str(moment), str(file), str(folder)], capture_output=True, text=True, check=False
    )


@pytest.fixture(scope="module")
def undisturbed(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, bytes]:
    """The folder as a take-in that nobody kills leaves it."""
    tmp_path = tmp_path_factory.mktemp("undisturbed")
    folder = studio(tmp_path)
    take_in(outside(tmp_path, messy.brushed()), folder, None)
    return contents(folder)


@pytest.mark.parametrize("moment", [1, *range(4, CALLS, 6), CALLS])
def test_killed_at_a_moment_all_of_it_is_there_or_nothing(
    moment: int, tmp_path: Path, undisturbed: Mapping[str, bytes]
) -> None:
    folder = studio(tmp_path)
    file = outside(tmp_path, messy.brushed())
    before = contents(folder)
    assert run(folder, file, moment).returncode == -signal.SIGKILL
    counts = (folder / journal.COUNTS / "files.json").exists()
    left = contents(folder)
    assert {path: left[path] for path in before} == before, "nothing that was there is lost"
    logs = [path for path in left if path.startswith("logs/") and path not in before]
    if not counts:
        assert logs in ([], ["logs/2026-autumn-1.csv"], ["logs/2026-autumn-1.csv", "logs/columns.yaml"])
        assert bool(logs) == (len(left) > len(before)), "entries without their log, or a log without its entries"
    assert errors(folder) == []
    done = take_in(file, folder, None)
    assert done.resumed == counts and done.stopped == ""
    assert contents(folder) == undisturbed
    assert [p.name for p in folder.iterdir() if p.name.startswith(".")] == []


def test_a_take_in_touches_the_disk_as_often_as_is_tried(tmp_path: Path) -> None:
    told = run(studio(tmp_path), outside(tmp_path, messy.brushed()), 10_000)
    asked, left = (int(word) for word in told.stdout.split())
    assert CALLS <= asked - left < CALLS + 8


def test_two_at_once_are_told_apart(tmp_path: Path) -> None:
    folder = studio(tmp_path)
    with journal.alone(folder):
        done = take_in(outside(tmp_path, messy.brushed()), folder, None)
    assert done.stopped.startswith("another take-in is at work in ")
    assert take_in(tmp_path / "class.csv", folder, None).taken > 150


def test_a_file_that_somebody_writes_meanwhile_is_not_written_over(tmp_path: Path) -> None:
    folder = tmp_path / "studio"
    folder.mkdir()
    (folder / "logs").mkdir()
    (folder / "logs/a-1.csv").write_text("theirs")
    with pytest.raises(FileExistsError):
        journal.write_all(folder, {"logs/a-1.csv": b"mine"})
    assert sorted(os.listdir(folder)) == ["logs"]
    assert (folder / "logs/a-1.csv").read_text() == "theirs"
