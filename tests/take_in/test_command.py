"""The command: what it asks for, what it says, how it ends."""

from __future__ import annotations

from pathlib import Path

import pytest

from combobook import cli, journal
from tests.picture.photographs import coded, plain
from tests.take_in.classes import outside, studio


@pytest.fixture
def room(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    studio(tmp_path)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_it_ends_with_a_report_and_what_to_do_next(room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    outside(room, "Student,Tile #,base,base coats\nMaria,C1,FR,2\nJo,C2,Fery Rust,2\n")
    assert cli.run(["take-in", "class.csv"]) == 0
    told = capsys.readouterr()
    assert told.out == (
        "class.csv:\n"
        "    taken in         1 row, in content/logs/2026-autumn-1.csv\n"
        "    already there    0\n"
        "    doubtful         1, in class-doubtful.csv, each with its reason\n"
        "    entries written  0\n"
        "    headings         as they were read, kept in content/logs/columns.yaml\n"
        "To settle a spelling once and for all, write into content/logs/columns.yaml, then take the file in again:\n"
        "read as:\n"
        "  Fery Rust: Ferry Rust    # 1 row\n"
        "Next: mend the rows in class-doubtful.csv and take that file in; combobook check content.\n"
    )
    assert told.err == (
        "class.csv:1:1: warning: the column `Student` is for people: nothing of it is taken in or written anywhere  "
        "[column-of-people]\n"
        "help: only a tile's mark tells whose it is: keep the list of who made it out of this folder\n"
        "class.csv:3:7: warning: no glaze called `Fery Rust`  [unknown-glaze]\n"
        "help: did you mean `Ferry Rust`?\n"
    )


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ([], "name the file to take in, or photographs with --photos"),
        (["gone.csv"], "there is no file `gone.csv`"),
        (["class.csv", "nowhere"], "there is no folder `nowhere` here"),
        (["class.csv", "content", "more"], "name one file, and after it the studio's folder"),
        (["--photos", "gone"], "there is no folder `gone` with photographs"),
        (["content"], "there is no file `content`"),
    ],
)
def test_wrong_usage_says_what_is_due(asked: list[str], said: str, room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    outside(room, "tile,base,base coats\n")
    assert cli.run(["take-in", *asked]) == 2
    assert said in capsys.readouterr().err


def test_photographs_alone_need_no_file(room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (room / "phone").mkdir()
    (room / "phone/b1.png").write_bytes(coded(plain((90, 60, 40)), "PNG"))
    (room / "phone/who.png").write_bytes(coded(plain((90, 60, 40)), "PNG"))
    assert cli.run(["take-in", "--photos", "phone", "content"]) == 0
    assert capsys.readouterr().out == (
        "photographs:\n"
        "    copied           1, nothing in them but the picture (0 told by tag, 1 by name)\n"
        "    rows             1, in content/logs/2026-autumn-1.csv\n"
        "    already there    0\n"
        "    nobody's         1, see phone-unmatched.html\n"
        "                     who.png: no tag can be read in it, and its name holds no tile's mark\n"
        "Next: look over the new pictures in photos/: no face, name or place in any; combobook check content.\n"
    )


def test_a_file_that_tells_nothing_ends_with_one(room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    outside(room, "this and that\nno table at all\n")
    assert cli.run(["take-in", "class.csv"]) == 1
    assert capsys.readouterr().err.splitlines()[-1] == "nothing was taken in: the columns cannot be told"


def test_a_folder_that_cannot_be_written_is_said(room: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    outside(room, "tile,base,base coats\nC1,FR,2\n")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device", "content/.take-in.new")

    monkeypatch.setattr(journal, "write_through", full)
    assert cli.run(["take-in", "class.csv"]) == 1
    assert capsys.readouterr().err.startswith("error: content/.take-in.new: no space left on device\nhelp: ")
    assert sorted(p.name for p in (room / "content/logs").iterdir()) == ["autumn.csv"]
    assert not (room / "content/.take-in.new").exists()


def test_a_take_in_that_was_stopped_midway_is_told_by_check_and_ended_by_what_writes(
    room: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    outside(room, "tile,base,base coats\nC1,FR,2\n")
    with monkeypatch.context() as patch:
        patch.setattr(journal, "_put", lambda folder: None)
        assert cli.run(["take-in", "class.csv"]) == 0
    assert journal.is_unfinished(room / "content")
    capsys.readouterr()
    cli.run(["check"])
    assert capsys.readouterr().err.startswith("note: a take-in was stopped midway; the next one, or a publish, brings")
    assert journal.is_unfinished(room / "content")
    cli.run(["withdraw", "C1"])
    assert capsys.readouterr().err.startswith("note: a take-in had been stopped midway; it is finished now")
    assert (room / "content/logs/2026-autumn-1.csv").is_file()
