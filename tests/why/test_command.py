"""`combobook why` as typed: how glazes are named, what is refused, exit codes, and how quickly it starts."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from combobook import cli
from combobook.link.asked import Pair, pairs_meant
from tests.studios import entry, glaze, studio_folder

ORDER = "Ferry Rust first, then Pond Lantern. 2 coats Ferry Rust, then 1 Pond Lantern."


@pytest.fixture
def room(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder to work in, with the good studio in content/."""
    monkeypatch.chdir(tmp_path)
    studio_folder(tmp_path)
    return tmp_path


def joined(text: str) -> str:
    """The same words on one line: where a line ends is the terminal's affair."""
    return " ".join(text.split())


@pytest.mark.parametrize(
    "asked",
    [
        ["ferry-rust", "pond-lantern"], ["FR", "pl"], ["Ferry Rust", "POND LANTERN"], ["fr", "pl", "content"],
        ["pond-lantern-over-ferry-rust"], ["PL-over-FR"], ["Pond Lantern-OVER-Ferry Rust"], ["pl-over-fr", "content"],
        ["Pond Lantern over Ferry Rust"], ["pl", "over", "fr"], ["PL over FR", "content"], ["pl", "over", "fr", "content"],
    ],
    ids=" ".join,
)  # fmt: skip
def test_glazes_are_named_by_file_name_or_mark_in_any_letter_case(
    room: Path, capsys: pytest.CaptureFixture[str], asked: list[str]
) -> None:
    assert cli.run(["why", *asked]) == 0
    out, err = capsys.readouterr()
    assert joined(out).startswith(ORDER)
    assert err == ""


def test_another_folder_is_named_last_and_stands_before_each_place(room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (room / "content").rename(room / "my studio")
    assert cli.run(["why", "PL-over-FR", "my studio"]) == 0
    out, _ = capsys.readouterr()
    assert "my studio/glazes/ferry-rust.md:5  [label]" in out
    assert "combobook why pond-lantern ferry-rust \"my studio\"" in joined(out)


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        (["ferry-rusk", "PL"], "no glaze called `ferry-rusk`: did you mean `ferry-rust`?"),
        (["zzz", "PL"], "no glaze called `zzz`: write a file name from glazes/, a name or a mark, as `ferry-rust`"),
        (["qqq", "zzz"], "`qqq`"),
        (["FR"], "name two glazes"),
        (["a", "b", "c", "d"], "name two glazes"),
        (["FR", "PL", "nowhere"], "there is no folder `nowhere` here"),
        (["PL-over-FR", "nowhere"], "there is no folder `nowhere` here"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else None,
)
def test_what_names_no_pair_is_wrong_usage_and_says_what_to_type(
    room: Path, capsys: pytest.CaptureFixture[str], asked: list[str], says: str
) -> None:
    assert cli.run(["why", *asked]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert says in joined(err)


def test_a_word_that_fits_two_glazes_is_not_guessed(room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One glaze's mark is another's file name."""
    lines = ("food label: yes", "flow: stable", "coats: 2 to 3")
    (room / "content/glazes/fog.md").write_text(glaze("Morning Fog", "MF", *lines), encoding="utf-8")
    (room / "content/glazes/haze.md").write_text(glaze("Evening Haze", "FOG", *lines), encoding="utf-8")
    assert cli.run(["why", "fog", "FR"]) == 2
    assert "`fog` fits glazes/fog.md and glazes/haze.md" in joined(capsys.readouterr().err)


def test_an_error_in_the_content_is_printed_and_nothing_is_said_of_any_glaze(
    room: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (room / "content/combinations/broken.md").write_text(entry("base: FR", "top: nobody"), encoding="utf-8")
    assert cli.run(["why", "FR", "PL"]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert "content/combinations/broken.md:3:6: error: no glaze called `nobody`" in err
    assert err.endswith("1 error; nothing can be said of any glaze while an error stands\n")


def test_a_warning_does_not_stand_in_the_way(room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (room / "content/forms/bowl.md").write_text(entry("name: Bowl", "height: 70 mm"), encoding="utf-8")
    assert cli.run(["why", "FR", "PL"]) == 0
    out, err = capsys.readouterr()
    assert "Bowl. Outside:" in out
    assert err == ""


def test_what_an_author_typed_is_not_obeyed_by_the_terminal(room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = room / "content/glazes/ferry-rust.md"
    path.write_text(path.read_text(encoding="utf-8").replace("Ferry Rust", '"Ferry\\u202E Rust"'), encoding="utf-8")
    cli.run(["why", "FR", "PL"])
    assert "\u202e" not in "".join(capsys.readouterr())


def test_a_narrow_terminal_gets_narrow_lines_and_unbroken_places(
    room: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True)
    monkeypatch.setenv("COLUMNS", "50")
    assert cli.run(["why", "FR", "PL"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert [line for line in lines if len(line) > 50 and ".md:" not in line and ".csv:" not in line] == []
    assert any("content/combinations/" in line or "content/glazes/" in line for line in lines)


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (("a", "b"), [Pair(base="a", top="b")]),
        (("a", "b", "f"), [Pair(base="a", top="b", folder="f")]),
        (("b-over-a",), [Pair(base="a", top="b")]),
        (("b-over-a", "f"), [Pair(base="a", top="b", folder="f")]),
        (("b over a", "f"), [Pair(base="a", top="b", folder="f"), Pair(base="b over a", top="f")]),
        (("b", "over", "a"), [Pair(base="a", top="b"), Pair(base="b", top="over", folder="a")]),
        (("Mud-over-Moss-over-a",), [Pair(base="Moss-over-a", top="Mud"), Pair(base="a", top="Mud-over-Moss")]),
        (("-over-a",), []),
        (("a",), []),
    ],
    ids=lambda value: " | ".join(value) if isinstance(value, tuple) else None,
)
def test_words_are_read_in_every_way_that_they_can_be_meant(words: tuple[str, ...], expected: list[Pair]) -> None:
    assert list(pairs_meant(words)) == expected


STARTED = """
import json, sys
sys.argv = ["combobook", "why", "FR", "PL"]
from combobook.__main__ import main
try:
    main()
except SystemExit as ended:
    print(json.dumps([ended.code, sorted({name.partition(".")[0] for name in sys.modules})]))
"""


def test_why_imports_only_what_it_needs(room: Path) -> None:
    done = subprocess.run([sys.executable, "-c", STARTED], capture_output=True, text=True, cwd=room)
    code, modules = json.loads(done.stdout.splitlines()[-1])
    assert code == 0, done.stderr
    heavy = {"weasyprint", "PIL", "pillow_heif", "jinja2", "markupsafe", "markdown", "nh3", "pypdf", "rich", "coloraide", "segno"}
    assert heavy & set(modules) == set()


def test_codes_in_brackets_are_explained_once_at_the_very_end(room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.run(["why", "FR", "PL"]) == 0
    said = joined(capsys.readouterr().out)
    assert said.endswith("label and house are the label's own word and the house's rule.")
    assert said.count("Codes in brackets are rules of this book") == 1
