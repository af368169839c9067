"""What a process worked out before is used again only while it is true: an edition is the same, byte for byte."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from combobook.kept import Kept
from combobook.pipeline import publish
from combobook.progress import Silent
from tests.gallery.cases import GOOD
from tests.published_demo import CONTENT


def test_a_result_is_given_again_while_what_it_was_made_from_is_equal_and_made_anew_when_it_is_not() -> None:
    kept: Kept[list[int]] = Kept()
    first = kept("a", (1, "x"), lambda: [1])
    assert kept("a", (1, "x"), lambda: [2]) is first
    assert kept("a", (1, "y"), lambda: [3]) == [3]
    assert kept("b", (1, "y"), lambda: [4]) == [4]
    assert kept("a", (1, "x"), lambda: [5]) == [5], "only the newest is kept"


CHANGES = (
    ("glazes/pond-lantern.md", "food label: yes", "food label: no"),
    ("glazes/ferry-rust.md", "name: Ferry Rust", "name: Ferry Rust\nstatus: out"),
    ("logs/autumn.csv", "2 mm,none", "9 mm,pinholes"),
    ("studio.yaml", "edition: 2026 Autumn", "edition: 2026 Autumn\nfood rule: never\nrun factor: 3"),
    ("forms/mug.md", "height: 95 mm", "height: 60 mm"),
    ("firings/f01.md", "cone: 6", "cone: 6\nwitness:\n  middle: 7"),
)


def files(to: Path) -> dict[str, bytes]:
    return {p.relative_to(to).as_posix(): p.read_bytes() for p in to.rglob("*") if p.is_file()}


def published_here(studio: Path, to: Path) -> None:
    done = publish(studio, to, Silent(), sheets=False)
    assert done.files, [p for p in done.problems if p.is_error]


def published_afresh(studio: Path, to: Path) -> None:
    """By a process that has nothing kept."""
    program = (
        "import sys; from pathlib import Path; from combobook.pipeline import publish; from combobook.progress import Silent\n"
        "publish(Path(sys.argv[1]), Path(sys.argv[2]), Silent(), sheets=False)"
    )
    subprocess.run([sys.executable, "-c", program, str(studio), str(to)], check=True)


@pytest.mark.parametrize("turns", [1, 2])
def test_publishing_again_in_one_process_gives_the_bytes_of_a_fresh_one(tmp_path: Path, turns: int) -> None:
    studio = tmp_path / "studio"
    shutil.copytree(GOOD, studio)
    for _ in range(turns):  # The second time everything is changed back and forth.
        for path, before, after in CHANGES:
            file = studio / path
            text = file.read_text(encoding="utf-8")
            old, new = (before, after) if after not in text else (after, before)
            assert old in text, path
            file.write_text(text.replace(old, new), encoding="utf-8")
            published_here(studio, tmp_path / "again")
    published_afresh(studio, tmp_path / "fresh")
    assert files(tmp_path / "again") == files(tmp_path / "fresh")


BOOK_CHANGES = (
    ("studio.yaml", "units: mm", "units: in"),
    ("clays/hod-speckle.md", "name: Hod Speckle", "name: Hod SPECKLE"),
    ("logs/2026-04-28-unloading-f02.csv", "B117,QM,2,,,,f02,middle,upright,0,none,", "B117,QM,2,,,,f02,upper,upright,3 mm,pits,"),
    ("glazes/harbour-fog.md", "name: Harbour Fog", "name: Harbour FOG"),
)
"""What other pages, other entries' texts and captions say of one thing."""


def test_a_whole_book_published_again_says_nothing_that_it_said_before(tmp_path: Path) -> None:
    studio = tmp_path / "studio"
    shutil.copytree(CONTENT, studio)
    prose = studio / "combinations/harbour-fog-over-bramble-ink.md"
    prose.write_text(f"{prose.read_text(encoding='utf-8')}\n![Quarry Moth alone](../photos/drawing-b117.jpg)\n", encoding="utf-8")
    published_here(studio, tmp_path / "again")
    for path, before, after in BOOK_CHANGES:
        text = (studio / path).read_text(encoding="utf-8")
        assert before in text, path
        (studio / path).write_text(text.replace(before, after), encoding="utf-8")
    shutil.copy(studio / "photos/drawing-a101.jpg", studio / "photos/drawing-b117.jpg")
    published_here(studio, tmp_path / "again")
    page = (tmp_path / "again/site/combinations/harbour-fog-over-bramble-ink.html").read_text(encoding="utf-8")
    assert 'alt="Quarry Moth alone"' in page and "upper shelf" in page and "Harbour FOG over Bramble Ink" in page
    published_afresh(studio, tmp_path / "fresh")
    assert files(tmp_path / "again") == files(tmp_path / "fresh")
