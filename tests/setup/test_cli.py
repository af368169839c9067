"""The commands as typed: exit codes, what goes where, and plain words for whatever goes wrong."""

from __future__ import annotations

import json
import re
import subprocess
import sys
import tempfile
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from combobook import cli, pipeline
from combobook.problems import Place, Problem, Severity
from combobook.sources import Content, Source

A_GLAZE = Source(path="glazes/x.md", folder="glazes", stem="x", text="---\nname: X\nconee: 6\n---\n")
ERROR = Problem(
    place=Place(path="glazes/x.md", line=3), severity=Severity.ERROR, code="unknown-field",
    message="no field called `conee`", help="did you mean `cone`?", width=5,
)
WARNING = Problem(place=Place(path="glazes/x.md", line=2), severity=Severity.WARNING, code="a-warning", message="hm")


@pytest.fixture
def room(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder to work in, with an empty studio in it."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "content").mkdir()
    return tmp_path


def the_pass_finds(monkeypatch: pytest.MonkeyPatch, *problems: Problem, output: tuple[Problem, ...] = (), files: int = 0) -> None:
    checked = SimpleNamespace(content=Content(sources=(A_GLAZE,), photos=()), problems=problems)
    published = SimpleNamespace(checked=checked, problems=problems, output=output, files=("f",) * files)
    monkeypatch.setattr(pipeline, "check", lambda folder, progress: checked)
    monkeypatch.setattr(pipeline, "publish", lambda folder, to, progress, strict: published)


PRINTED = """\
{folder}glazes/x.md:3:1: error: no field called `conee`  [unknown-field]
    conee: 6
    ^^^^^
help: did you mean `cone`?
"""


@pytest.mark.parametrize(
    ("arguments", "prefix"),
    [(["check"], "content/"), (["check", "content/"], "content/"), (["check", "../{name}/content"], "../{name}/content/")],
)
def test_problems_name_the_folder_as_it_was_typed(
    room: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], arguments: list[str], prefix: str
) -> None:
    the_pass_finds(monkeypatch, ERROR)
    assert cli.run([a.format(name=room.name) for a in arguments]) == 1
    out, err = capsys.readouterr()
    assert err == PRINTED.format(folder=prefix.format(name=room.name)) + "1 error\n"
    assert out == ""


@pytest.mark.parametrize(
    ("problems", "strict", "code", "last"),
    [
        ((), [], 0, "no problems"),
        ((), ["--strict"], 0, "no problems"),
        ((WARNING,), [], 0, "1 warning"),
        ((WARNING,), ["--strict"], 1, "1 warning"),
        ((WARNING, ERROR), [], 1, "1 error, 1 warning"),
        ((WARNING, ERROR, ERROR), [], 1, "2 errors, 1 warning"),
    ],
)
def test_errors_end_check_with_1_and_warnings_only_when_strict(
    room: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str],
    problems: tuple[Problem, ...], strict: list[str], code: int, last: str,
) -> None:
    the_pass_finds(monkeypatch, *problems)
    assert cli.run(["check", *strict]) == code
    assert capsys.readouterr().err.splitlines()[-1] == last


def test_a_published_edition_says_where_it_begins(
    room: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    the_pass_finds(monkeypatch, WARNING, files=12)
    assert cli.run(["publish", "--to", "out/book"]) == 0
    out, err = capsys.readouterr()
    assert out == "published 12 files: begin at out/book/site/index.html\n"
    assert err.endswith("1 warning\n")


def test_an_edition_that_was_stopped_says_that_the_old_one_stands(
    room: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    the_pass_finds(monkeypatch, ERROR)
    assert cli.run(["publish"]) == 1
    assert capsys.readouterr().err.endswith("1 error\nnothing was published\n")
    (room / "build/site").mkdir(parents=True)
    assert cli.run(["publish"]) == 1
    assert capsys.readouterr().err.endswith("1 error\nnothing was published; the edition in build is as it was\n")


def test_a_fault_in_the_output_is_named_by_its_path_there(
    room: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    whole = Problem(place=Place(path="", line=1), severity=Severity.ERROR, code="refused-folder", message="not ours")
    page = Problem(place=Place(path="site/index.html", line=4), severity=Severity.ERROR, code="dead-link", message="gone")
    the_pass_finds(monkeypatch, output=(whole, page))
    assert cli.run(["publish", "--to", "out"]) == 1
    assert capsys.readouterr().err == (
        "out:1:1: error: not ours  [refused-folder]\n"
        "out/site/index.html:4:1: error: gone  [dead-link]\n"
        "2 errors\nnothing was published\n"
    )


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["check", "contnt"], "there is no folder `contnt` here. Name the studio's folder, or lay one out with: combobook start contnt"),
        (["publish", "contnt"], "there is no folder `contnt` here. Name the studio's folder, or lay one out with: combobook start contnt"),
        (["show", "contnt"], "there is no folder `contnt` here. Name the studio's folder, or lay one out with: combobook start contnt"),
        (["check", "a-file"], "`a-file` is not a folder. Name the studio's folder, or lay one out with: combobook start a-file"),
        (["start", "content"], "`content` holds something already, and nothing there is overwritten. Name an empty or new folder."),
        (["start"], "Missing argument 'FOLDER'."),
        (["chekc"], "No such command 'chekc'."),
        (["check", "--fast"], "No such option"),
        (["check", "a", "b"], "Got unexpected extra argument (b)"),
    ],
)
def test_wrong_usage_ends_with_2_and_says_what_to_type(
    room: Path, capsys: pytest.CaptureFixture[str], arguments: list[str], words: str
) -> None:
    (room / "a-file").write_text("x")
    (room / "content/keep").write_text("x")
    assert cli.run(arguments) == 2
    out, err = capsys.readouterr()
    assert words in " ".join(err.split())
    assert "Traceback" not in err
    assert out == ""


def a_broken_pass(monkeypatch: pytest.MonkeyPatch, failure: BaseException) -> None:
    def check(folder: Path, progress: object) -> Any:
        raise failure

    monkeypatch.setattr(pipeline, "check", check)


class NoExceptionError(BaseException):
    """As WeasyPrint's own failures are."""


@pytest.mark.parametrize("failure", [KeyError("wings"), RecursionError("deep"), NoExceptionError("odd")], ids=repr)
def test_a_fault_of_our_own_ends_with_3_a_log_and_no_traceback(
    room: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], failure: BaseException
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(room))
    a_broken_pass(monkeypatch, failure)
    assert cli.run(["check"]) == 3
    err = capsys.readouterr().err
    assert "Traceback" not in err
    [log] = room.glob("combobook-*.log")
    assert err == (
        "combobook met a fault of its own and stopped. Your folder and the last edition are as they were. "
        f"What happened is written down in {log}: please send that file to whoever looks after combobook.\n"
    )
    assert "Traceback (most recent call last)" in log.read_text()
    assert type(failure).__name__ in log.read_text()


def test_where_no_log_can_be_written_the_fault_itself_is_named(
    room: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(room / "gone"))
    a_broken_pass(monkeypatch, KeyError("wings"))
    assert cli.run(["check"]) == 3
    assert "No log could be written. It was: KeyError: 'wings'." in capsys.readouterr().err


def test_ctrl_c_is_no_fault(room: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    a_broken_pass(monkeypatch, KeyboardInterrupt())
    assert cli.run(["check"]) == 130
    assert capsys.readouterr().err.strip() == "stopped; what was published before is as it was"


def test_nothing_an_author_typed_is_obeyed_by_the_terminal(
    room: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    text = "name: \x1b[2Jgone\x07\u202e\tx"
    source = Source(path="glazes/x.md", folder="glazes", stem="x", text=text)
    problem = Problem(place=Place(path="glazes/x.md", line=1), severity=Severity.ERROR, code="c", message="m \x9b31m")
    checked = SimpleNamespace(content=Content(sources=(source,), photos=()), problems=(problem,))
    monkeypatch.setattr(pipeline, "check", lambda folder, progress: checked)
    cli.run(["check"])
    err = capsys.readouterr().err
    assert not re.search(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e]", err)
    assert "    name: \ufffd[2Jgone\ufffd\ufffd\tx\n" in err


def test_without_the_sheets_libraries_publish_names_one_command_and_stops(
    room: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    from combobook import machine

    the_pass_finds(monkeypatch)
    monkeypatch.setattr(machine, "missing", lambda needs: needs)
    monkeypatch.setattr(machine, "command_for", lambda needs: "bring " + " ".join(needs))
    with pytest.raises(SystemExit) as stopped:
        cli.run(["publish"])
    assert stopped.value.code == 3
    assert capsys.readouterr().err.splitlines()[-1] == "    bring sheets"
    assert cli.run(["check"]) == 0


STARTER_SHEETS = """
import json, sys
sys.argv = ["combobook", "check", sys.argv[1]]
from combobook.__main__ import main
try:
    main()
except SystemExit as ended:
    print(json.dumps([ended.code, sorted({name.partition(".")[0] for name in sys.modules})]))
"""


def test_check_imports_only_what_it_needs(room: Path) -> None:
    assert cli.run(["start", "studio"]) == 0
    done = subprocess.run([sys.executable, "-c", STARTER_SHEETS, "studio"], capture_output=True, text=True, cwd=room)
    code, modules = json.loads(done.stdout)
    assert code == 0, done.stderr
    heavy = {"weasyprint", "PIL", "pillow_heif", "jinja2", "markdown", "nh3", "pypdf", "rich", "watchfiles", "coloraide", "segno"}
    assert heavy & set(modules) == set()


def test_a_reader_that_leaves_early_is_no_fault(room: Path) -> None:
    (room / "content/glazes").mkdir()
    (room / "content/combinations").mkdir()
    for n in range(400):
        (room / f"content/glazes/g{n}.md").write_text("no front matter\n")
    command = f"'{sys.executable}' -m combobook check 2>&1 >/dev/null | head -1"
    done = subprocess.run(["bash", "-c", command], capture_output=True, text=True, cwd=room)
    assert done.stderr == ""
    assert len(done.stdout.splitlines()) == 1
