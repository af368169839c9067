"""The folder to texts: which files are ours, and what is never opened or followed."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from combobook.problems import Severity
from combobook.read import read
from tests.reading.reader import codes


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The smallest folder without a problem."""
    home = tmp_path / "a studio"
    for name in ("glazes", "combinations", "photos", "logs", "editions"):
        (home / name).mkdir(parents=True)
    (home / "studio.yaml").write_text("studio: A\n")
    return home


def test_the_smallest_folder_has_no_problem(folder: Path) -> None:
    content, problems = read(folder)
    assert problems == ()
    assert [source.path for source in content.sources] == ["studio.yaml"]


def test_a_folder_that_is_not_there_is_a_problem(tmp_path: Path) -> None:
    content, problems = read(tmp_path / "none")
    assert content.sources == ()
    assert codes(problems) == ["unreadable", "missing-part", "missing-part", "missing-part"]


def test_texts_come_in_order_of_path_with_their_folder_and_stem(folder: Path) -> None:
    for name in ("glazes/b.md", "glazes/a.md", "logs/x.csv", "combinations/c.md"):
        (folder / name).write_text("x")
    content, problems = read(folder)
    assert problems == ()
    assert [(s.path, s.folder, s.stem) for s in content.sources] == [
        ("combinations/c.md", "combinations", "c"),
        ("glazes/a.md", "glazes", "a"),
        ("glazes/b.md", "glazes", "b"),
        ("logs/x.csv", "logs", "x"),
        ("studio.yaml", "", "studio"),
    ]


def test_a_byte_order_mark_and_every_line_end_read_the_same(folder: Path) -> None:
    (folder / "glazes/a.md").write_bytes(b"\xef\xbb\xbf---\r\nname: A\r\n---\r\n")
    (folder / "glazes/b.md").write_bytes(b"---\rname: A\r---\r")
    content, problems = read(folder)
    assert problems == ()
    assert {s.text for s in content.sources if s.folder == "glazes"} == {"---\nname: A\n---\n"}


@pytest.mark.parametrize(
    "name",
    [
        ".hidden",
        "glazes/.DS_Store",
        "logs/~$class.xlsx",
        "photos/Thumbs.db",
        "logs/columns.yaml",
    ],
)
def test_what_programs_leave_behind_is_passed_over(folder: Path, name: str) -> None:
    (folder / name).write_text("x")
    content, problems = read(folder)
    assert problems == ()
    assert (content.photos, len(content.sources)) == ((), 1)


@pytest.mark.parametrize(
    "name",
    [
        "notes.txt",
        "glazes/a.txt",
        "glazes/a.MD",
        "logs/a.tsv",
        "photos/a.gif",
        "editions/a.md",
        "glazes/old/a.md",
        "Glazes/a.md",
    ],
)
def test_a_file_that_is_none_of_ours_is_a_warning(folder: Path, name: str) -> None:
    (folder / name).parent.mkdir(exist_ok=True)
    (folder / name).write_text("x")
    _, problems = read(folder)
    assert [(p.code, p.severity) for p in problems] == [("stray-file", Severity.WARNING)]


def test_photos_are_named_and_never_opened(folder: Path) -> None:
    for name in ("b1.jpg", "B2.JPEG", "c.png", "d.webp", "e.HEIC"):
        (folder / "photos" / name).write_bytes(b"\x00")
    content, problems = read(folder)
    assert problems == ()
    assert content.photos == ("B2.JPEG", "b1.jpg", "c.png", "d.webp", "e.HEIC")


@pytest.mark.parametrize("name", ["glazes/a.md", "photos/a.jpg", "logs/a.csv", "pages"])
def test_a_link_out_of_the_folder_is_an_error_and_not_followed(folder: Path, name: str, tmp_path: Path) -> None:
    outside = tmp_path / "secret"
    outside.write_text("secret")
    (folder / name).symlink_to(outside)
    content, problems = read(folder)
    assert codes(problems) == ["leads-outside"]
    assert "secret" not in repr(content)
    assert [s.path for s in content.unread] == ([name] if "." in name else [])
    assert content.photos == ()


def test_a_folder_linked_from_outside_is_not_read(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "elsewhere" / "a.md").write_text("secret")
    (folder / "pages").symlink_to(tmp_path / "elsewhere")
    content, problems = read(folder)
    assert codes(problems) == ["leads-outside"]
    assert len(content.sources) == 1


def test_a_link_inside_the_folder_is_followed(folder: Path) -> None:
    (folder / "glazes/a.md").write_text("x")
    (folder / "glazes/b.md").symlink_to("a.md")
    content, problems = read(folder)
    assert problems == ()
    assert [s.text for s in content.sources if s.folder == "glazes"] == ["x", "x"]


@pytest.mark.parametrize("target", ["b.md", "a.md"])
def test_a_link_that_leads_nowhere_or_to_itself_is_an_error(folder: Path, target: str) -> None:
    (folder / "glazes/a.md").symlink_to(target)
    assert codes(read(folder)[1]) == ["leads-outside"]


@pytest.mark.parametrize("name", ["glazes/a.md", "photos/a.jpg"])
def test_a_pipe_is_not_opened(folder: Path, name: str) -> None:
    os.mkfifo(folder / name)
    assert codes(read(folder)[1]) == ["unreadable"]


def test_not_utf8_names_the_byte_and_the_place_once(folder: Path) -> None:
    (folder / "glazes/a.md").write_bytes(b"---\r\nname: Caf\xe9 \xff\r\n")
    content, (problem,) = read(folder)
    assert problem.code == "not-utf8"
    assert (problem.place.line, problem.place.column) == (2, 10)
    assert "byte 15" in problem.message and "0xe9" in problem.message
    assert [s.path for s in content.unread] == ["glazes/a.md"]


@pytest.mark.parametrize("character", ["\x00", "\x07", "\x1b", "\x7f", "\x80", "\ufffe", "\ufeff"])
def test_characters_that_are_no_text_are_named(folder: Path, character: str) -> None:
    (folder / "glazes/a.md").write_text(f"---\nname: {character}\n---\n", encoding="utf-8")
    _, (problem,) = read(folder)
    assert (problem.code, problem.place.line, problem.place.column) == ("bad-character", 2, 7)
    assert f"U+{ord(character):04X}" in problem.message


def test_a_megabyte_is_the_most(folder: Path) -> None:
    (folder / "glazes/a.md").write_bytes(b"x" * 1_000_000)
    (folder / "glazes/b.md").write_bytes(b"x" * 1_000_001)
    content, problems = read(folder)
    assert [(p.code, p.place.path) for p in problems] == [("too-large", "glazes/b.md")]
    assert [s.path for s in content.sources if s.folder] == ["glazes/a.md"]


def test_a_name_that_is_no_utf8_can_still_be_printed(folder: Path) -> None:
    raw = os.fsencode(folder / "glazes") + b"/caf\xe9.md"
    try:
        with open(raw, "wb"):
            pass
    except OSError:
        pytest.skip("this file system takes only UTF-8 names")
    content, problems = read(folder)
    assert problems == ()
    assert content.sources[0].path.encode("utf-8") == b"glazes/caf\\udce9.md"
