"""Sheets made side by side, and those that lie in the edition taken again while nothing they tell has changed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import pytest

from combobook import printing
from combobook.edition import Edition
from combobook.problems import Place, Problem, Severity
from combobook.sources import Content, Source
from tests.published_demo import demo_edition

TEXT = Source(path="glazes/x.md", folder="glazes", stem="x", text="---\nname: X\n---\n")
CONTENT = Content(sources=(TEXT,), photos=("x.jpg",))
REMARK = Problem(
    place=Place(path="print/a.pdf", line=1), severity=Severity.WARNING, code="sheet", message="odd", help="report it"
)
MADE: printing.Made = ({"print/a.pdf": b"%PDF a", "print/b.pdf": b"%PDF b"}, (REMARK,))


def first(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    return {"print/first.txt": edition.book.studio.name.value.encode()}, ()


def second(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    return {"print/second.txt": str(len(edition.pairs)).encode()}, (REMARK,)


def failing(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    raise ValueError("no sheet of this")


def put(to: Path) -> None:
    for path, data in MADE[0].items():
        (to / path).parent.mkdir(parents=True, exist_ok=True)
        (to / path).write_bytes(data)


@pytest.fixture
def noted(tmp_path: Path) -> Path:
    put(tmp_path / "build")
    printing.note(tmp_path / "build", tmp_path / "cache", "origin", [("a sheet", MADE)])
    return tmp_path


def kept(folder: Path, origin: str = "origin") -> list[tuple[str, printing.Made]]:
    return [(name, made()) for name, made in printing.lying(folder / "build", folder / "cache", origin)]


def test_what_lies_there_is_taken_with_what_was_found_while_it_was_made(noted: Path) -> None:
    assert kept(noted) == [("a sheet", MADE)]


def test_nothing_is_taken_of_another_origin_or_another_edition(noted: Path) -> None:
    assert kept(noted, "another") == []
    (noted / "build").rename(noted / "other")
    assert printing.lying(noted / "other", noted / "cache", "origin") == ()


@pytest.mark.parametrize("harm", ["changed", "gone", "record", "empty record"])
def test_what_is_not_as_it_was_made_is_made_again(noted: Path, harm: str) -> None:
    record, sheet = noted / "cache/sheets/build.json", noted / "build/print/b.pdf"
    assert record.is_file()
    {
        "changed": lambda: sheet.write_bytes(b"%PDF c"),
        "gone": sheet.unlink,
        "record": lambda: record.write_text("{"),
        "empty record": lambda: record.write_text("[]"),
    }[harm]()
    assert kept(noted) == []


def test_a_cache_that_cannot_be_written_stops_nothing(tmp_path: Path) -> None:
    (tmp_path / "cache").write_text("a file where a folder should be")
    printing.note(tmp_path / "build", tmp_path / "cache", "origin", [("a sheet", MADE)])
    assert printing.lying(tmp_path / "build", tmp_path / "cache", "origin") == ()


def test_the_origin_follows_texts_photographs_pictures_and_language() -> None:
    edition = demo_edition()
    name, picture = next(iter(edition.pictures.items()))
    smaller = {size: replace(file, path=f"{file.path}x") for size, file in picture.sizes.items()}
    others = (
        (replace(CONTENT, sources=(replace(TEXT, text="---\nname: Y\n---\n"),)), edition),
        (replace(CONTENT, sources=(replace(TEXT, path="glazes/y.md"),)), edition),
        (replace(CONTENT, photos=()), edition),
        (CONTENT, replace(edition, pictures={})),
        (CONTENT, replace(edition, pictures={**edition.pictures, name: replace(picture, sizes=smaller)})),
        (CONTENT, replace(edition, theme=replace(edition.theme, language="xx"))),
        (CONTENT, replace(edition, theme=replace(edition.theme, folders=edition.theme.folders[:0]))),
    )
    origins = [printing.made_from(content, made) for content, made in others]
    assert len({printing.made_from(CONTENT, edition), *origins}) == len(others) + 1
    assert printing.made_from(CONTENT, edition) == printing.made_from(replace(CONTENT), edition)


def test_the_program_s_own_files_count_and_what_python_compiles_does_not(tmp_path: Path) -> None:
    (tmp_path / "a.py").write_text("1")
    before = printing._folder(tmp_path)
    (tmp_path / "__pycache__").mkdir()
    (tmp_path / "__pycache__/a.pyc").write_bytes(b"0")
    assert printing._folder(tmp_path) == before
    (tmp_path / "a.py").write_text("2")
    assert printing._folder(tmp_path) != before


@pytest.mark.parametrize("cores", [1, 2])
def test_sheets_come_in_order_whatever_the_cores(monkeypatch: pytest.MonkeyPatch, cores: int) -> None:
    monkeypatch.setattr(printing.os, "cpu_count", lambda: cores)
    edition = demo_edition()
    with printing.side_by_side((first, second), edition) as making:
        made = [(name, wait()) for name, wait in making]
    assert made == [("first", first(edition)), ("second", second(edition))]


@pytest.mark.parametrize("cores", [1, 2])
def test_a_sheet_that_fails_says_so_to_who_waits_for_it(monkeypatch: pytest.MonkeyPatch, cores: int) -> None:
    monkeypatch.setattr(printing.os, "cpu_count", lambda: cores)
    with (
        pytest.raises(ValueError, match="no sheet of this"),
        printing.side_by_side((first, failing), demo_edition()) as making,
    ):
        assert [wait() for _, wait in making] == []


def test_kept_sheets_are_not_made_again() -> None:
    with printing.side_by_side((failing,), demo_edition(), (("a sheet", lambda: MADE),)) as making:
        assert [(name, wait()) for name, wait in making] == [("a sheet", MADE)]
