"""Laying out a new studio's folder."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from combobook import cli, pipeline
from combobook.judge import judge_every_pair
from combobook.plan import plan
from combobook.progress import Silent
from combobook.start import lay_out


def names(folder: Path) -> set[str]:
    return {p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file()}


def test_a_new_folder_passes_check_without_a_single_problem(tmp_path: Path) -> None:
    assert lay_out(tmp_path / "a studio") == ""
    checked = pipeline.check(tmp_path / "a studio", Silent())
    assert checked.problems == ()
    assert checked.judged is not None
    assert len(checked.judged.glazes) == 3


def test_it_is_what_the_readme_says_and_nothing_is_left_beside_it(tmp_path: Path) -> None:
    assert lay_out(tmp_path / "studio") == ""
    assert {"studio.yaml", "glazes/attic-moth.md", "logs/2026-summer.csv"} <= names(tmp_path / "studio")
    assert [p.name for p in tmp_path.iterdir()] == ["studio"]


def test_comments_stand_on_lines_of_their_own(tmp_path: Path) -> None:
    """After a value a `#` is a trap that check warns of: what we hand out has none."""
    lay_out(tmp_path / "studio")
    for path in (tmp_path / "studio").rglob("*.[ym]*"):
        for line in path.read_text(encoding="utf-8").splitlines():
            assert " #" not in line or line.startswith("#"), (path, line)


def test_what_stands_in_comments_can_be_used_as_it_is(tmp_path: Path) -> None:
    """A line of fields behind a `#` is there to be freed of it."""
    lay_out(tmp_path / "studio")
    freed = []
    for path in sorted((tmp_path / "studio").rglob("*.[ym]*")):
        text = path.read_text(encoding="utf-8")
        freed += re.findall(r"^# ([a-z ]+):", text, re.MULTILINE)
        path.write_text(re.sub(r"^# (?=[a-z ]+:)", "", text, flags=re.MULTILINE), encoding="utf-8")
    assert sorted(freed) == ["keep off food", "retest since", "tag gaps", "tag margins", "tag size", "was"]
    assert pipeline.check(tmp_path / "studio", Silent()).problems == ()


def test_a_new_folder_can_be_planned_for(tmp_path: Path) -> None:
    """It says how large its class is, and its jars what they hold: a plan needs no more."""
    lay_out(tmp_path / "studio")
    checked = pipeline.check(tmp_path / "studio", Silent())
    assert checked.book is not None
    asked = pipeline.asked(checked.book)
    assert (asked.students, asked.tiles, asked.table) == (24, 2, 4)
    made, problems = plan(checked.book, judge_every_pair(checked.book)[0], asked)
    assert (len(made.tiles), problems) == (9, ()), "each pair that may be tried, as often as it is worth it"


def test_folders_on_the_way_are_made(tmp_path: Path) -> None:
    assert lay_out(tmp_path / "a/b/studio") == ""
    assert (tmp_path / "a/b/studio/studio.yaml").is_file()


def test_an_empty_folder_that_is_there_is_filled(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "studio").mkdir()
    assert lay_out(Path("studio")) == ""
    monkeypatch.chdir(tmp_path / "studio")
    shutil.rmtree(tmp_path / "studio/glazes")
    (tmp_path / "here").mkdir()
    monkeypatch.chdir(tmp_path / "here")
    assert cli.run(["start", "."]) == 0
    assert Path("studio.yaml").is_file()


@pytest.mark.parametrize("name", ["notes.txt", ".hidden"])
def test_a_folder_that_holds_anything_is_refused(tmp_path: Path, name: str) -> None:
    (tmp_path / name).write_text("mine")
    assert "holds something already" in lay_out(tmp_path)
    assert names(tmp_path) == {name}


def test_a_file_and_a_link_are_refused(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("mine")
    (tmp_path / "there").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "there")
    assert "is not a folder" in lay_out(tmp_path / "file")
    assert "is not a folder" in lay_out(tmp_path / "link")
    assert "could not be laid out" in lay_out(tmp_path / "file/studio")
    assert names(tmp_path) == {"file"}


def test_a_copy_that_fails_leaves_nothing_behind(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real, left = shutil.copyfile, [3]

    def copy(source: str, target: str) -> str:
        left[0] -= 1
        if left[0] <= 0:
            raise OSError(28, "No space left on device")
        return str(real(source, target))

    monkeypatch.setattr("combobook.start.shutil.copyfile", copy)
    said = lay_out(tmp_path / "studio")
    assert said == f"`{tmp_path / 'studio'}` could not be laid out: [Errno 28] No space left on device."
    assert list(tmp_path.iterdir()) == []
