"""Putting an edition in place: whole or not at all, and only where it belongs."""

from __future__ import annotations

import errno
import os
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from combobook import exchange as exchanging
from combobook import publish as publishing
from combobook.publish import MARKER, publish, refusals

FIRST = {"site/index.html": b"first", "site/glazes/attic-moth.html": b"moth", "data/book.json": b"{}\n"}
SECOND = {"site/index.html": b"second", "site/glazes/attic-moth.html": b"moth", "print/wall-chart.pdf": b"%PDF"}


@pytest.fixture
def content(tmp_path: Path) -> Path:
    folder = tmp_path / "content"
    folder.mkdir()
    return folder


@pytest.fixture
def build(tmp_path: Path) -> Path:
    return tmp_path / "build"


def held(folder: Path) -> dict[str, bytes]:
    """Every file but the marker."""
    return {
        p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file() and p.name != MARKER
    }


def beside(build: Path) -> list[str]:
    return sorted(p.name for p in build.parent.iterdir() if p.name not in ("content", "build"))


def test_the_first_edition_makes_the_folder(content: Path, build: Path) -> None:
    assert publish(FIRST, build, content) == ()
    assert held(build) == FIRST
    assert (build / MARKER).is_file()
    assert beside(build) == []


def test_a_second_edition_replaces_the_first_whole(content: Path, build: Path) -> None:
    publish(FIRST, build, content)
    assert publish(SECOND, build, content) == ()
    assert held(build) == SECOND
    assert beside(build) == []


def test_gitignore_is_carried_over_and_alone_in_a_folder_is_no_obstacle(content: Path, build: Path) -> None:
    build.mkdir()
    (build / ".gitignore").write_text("*\n!.gitignore\n")
    assert publish(FIRST, build, content) == ()
    assert publish(SECOND, build, content) == ()
    assert held(build) == {**SECOND, ".gitignore": b"*\n!.gitignore\n"}


def test_the_same_edition_again_touches_nothing(content: Path, build: Path) -> None:
    publish(FIRST, build, content)
    before = {p: (p.stat().st_ino, p.stat().st_mtime_ns) for p in [build, *build.rglob("*")]}
    assert publish(FIRST, build, content) == ()
    assert {p: (p.stat().st_ino, p.stat().st_mtime_ns) for p in [build, *build.rglob("*")]} == before


def test_an_equal_file_is_not_written_again(content: Path, build: Path) -> None:
    publish(FIRST, build, content)
    page = build / "site/glazes/attic-moth.html"
    inode = page.stat().st_ino
    publish(SECOND, build, content)
    assert page.stat().st_ino == inode


def test_an_edition_whose_file_was_changed_by_hand_is_mended(content: Path, build: Path) -> None:
    publish(FIRST, build, content)
    (build / "site/index.html").write_bytes(b"fIrst")
    (build / "stray.txt").write_bytes(b"left here")
    assert publish(FIRST, build, content) == ()
    assert held(build) == FIRST


def test_a_folder_of_somebody_elses_is_refused_and_left_alone(content: Path, build: Path) -> None:
    build.mkdir()
    (build / "thesis.odt").write_bytes(b"years of work")
    [problem] = publish(FIRST, build, content)
    assert (problem.code, problem.is_error) == ("refused-folder", True)
    assert problem.message == "this folder holds things that combobook did not put there"
    assert held(build) == {"thesis.odt": b"years of work"}
    assert beside(build) == []


def test_a_marker_that_is_a_link_marks_nothing(content: Path, build: Path, tmp_path: Path) -> None:
    publish(FIRST, tmp_path / "other", content)
    build.mkdir()
    (build / MARKER).symlink_to(tmp_path / "other" / MARKER)
    (build / "thesis.odt").write_bytes(b"years of work")
    assert [p.code for p in publish(FIRST, build, content)] == ["refused-folder"]
    assert held(build) == {"thesis.odt": b"years of work"}


@pytest.mark.parametrize(
    ("to", "reason"),
    [
        ("content", "this lies in the content folder, where only authors write"),
        ("content/build", "this lies in the content folder, where only authors write"),
        ("content/../content/a/b", "this lies in the content folder, where only authors write"),
        (".", "the content folder lies in here, and an edition replaces all that is in its folder"),
    ],
)
def test_an_edition_never_goes_where_the_authors_write(content: Path, tmp_path: Path, to: str, reason: str) -> None:
    (content / "studio.yaml").write_text("studio: x")
    [problem] = publish(FIRST, tmp_path / to, content)
    assert problem.message == reason
    assert held(tmp_path) == {"content/studio.yaml": b"studio: x"}


def test_a_link_to_a_folder_is_refused(content: Path, build: Path, tmp_path: Path) -> None:
    publish(FIRST, tmp_path / "elsewhere", content)
    build.symlink_to(tmp_path / "elsewhere")
    [problem] = publish(SECOND, build, content)
    assert problem.message.startswith("this is a link to another folder")
    assert held(tmp_path / "elsewhere") == FIRST


def test_a_file_where_the_folder_should_be_is_refused(content: Path, build: Path) -> None:
    build.write_bytes(b"a file")
    [problem] = publish(FIRST, build, content)
    assert problem.message == "this is a file, and an edition needs a folder"
    assert build.read_bytes() == b"a file"


def test_links_inside_an_old_edition_are_neither_followed_nor_kept(content: Path, build: Path, tmp_path: Path) -> None:
    publish(FIRST, build, content)
    outside = tmp_path / "outside"
    outside.mkdir()
    (outside / "attic-moth.html").write_bytes(b"moth")
    (build / "site/glazes/attic-moth.html").unlink()
    (build / "site/glazes").rmdir()
    (build / "site/glazes").symlink_to(outside)
    (build / ".gitignore").symlink_to(outside / "attic-moth.html")
    assert publish(FIRST, build, content) == ()
    assert held(build) == FIRST
    assert not (build / "site/glazes").is_symlink()
    assert held(outside) == {"attic-moth.html": b"moth"}


@pytest.mark.parametrize("path", ["../x", "/etc/x", "site/../../x", "a\\b", "C:x", "", "site//x", "site/", "./x", "a\nb"])
def test_a_path_that_leads_out_is_a_fault_of_ours(content: Path, build: Path, path: str) -> None:
    with pytest.raises(ValueError, match="not a path inside an edition"):
        publish({path: b"x"}, build, content)
    assert not build.exists()


def failing_after(calls: int, real: Callable[..., None], failure: BaseException) -> Callable[..., None]:
    left = [calls]

    def call(*values: object) -> None:
        if left[0] == 0:
            raise failure
        left[0] -= 1
        real(*values)

    return call


WRITES = len(SECOND) + 2  # its files, the marker, .gitignore


@pytest.mark.parametrize("calls", range(WRITES - 1))  # one file is equal and linked, not written
@pytest.mark.parametrize(
    "failure", [OSError(errno.ENOSPC, "No space left on device"), KeyboardInterrupt(), MemoryError()], ids=repr
)
def test_a_failure_at_any_write_leaves_the_old_edition_whole(
    content: Path, build: Path, monkeypatch: pytest.MonkeyPatch, calls: int, failure: BaseException
) -> None:
    publish(FIRST, build, content)
    (build / ".gitignore").write_bytes(b"*\n")
    monkeypatch.setattr(publishing, "_write", failing_after(calls, publishing._write, failure))
    if isinstance(failure, OSError):
        [problem] = publish(SECOND, build, content)
        assert problem.code == "cannot-publish"
        assert problem.message == "the edition could not be put in place: No space left on device"
    else:
        with pytest.raises(type(failure)):
            publish(SECOND, build, content)
    assert held(build) == {**FIRST, ".gitignore": b"*\n"}
    assert beside(build) == []
    monkeypatch.undo()
    assert publish(SECOND, build, content) == ()
    assert held(build) == {**SECOND, ".gitignore": b"*\n"}


def test_a_killed_publish_is_cleared_away_by_the_next(content: Path, build: Path) -> None:
    publish(FIRST, build, content)
    left = build.parent / ".build-new-0123abcd"
    publish({"half.html": b"half"}, left, content)
    (build.parent / ".build-new-00000000").mkdir()
    assert publish(SECOND, build, content) == ()
    assert held(build) == SECOND
    assert beside(build) == []


def test_a_folder_that_only_looks_like_a_leftover_is_left_alone(content: Path, build: Path) -> None:
    mine = build.parent / ".build-new-0123abcd"
    mine.mkdir()
    (mine / "notes.txt").write_bytes(b"mine")
    assert publish(FIRST, build, content) == ()
    assert held(mine) == {"notes.txt": b"mine"}


def without_one_step(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(exchanging, "_in_one_step", lambda new, to: False)


def test_where_the_system_cannot_exchange_two_renames_do(
    content: Path, build: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    without_one_step(monkeypatch)
    publish(FIRST, build, content)
    assert publish(SECOND, build, content) == ()
    assert held(build) == SECOND
    assert beside(build) == []


@pytest.mark.parametrize("calls", [0, 1])
def test_a_failed_rename_is_undone(
    content: Path, build: Path, monkeypatch: pytest.MonkeyPatch, calls: int
) -> None:
    without_one_step(monkeypatch)
    publish(FIRST, build, content)
    real, left = os.rename, [calls]

    def rename(old: Path, new: Path) -> None:
        left[0] -= 1
        if left[0] == -1:
            raise OSError(errno.EBUSY, "Device or resource busy")
        real(old, new)

    monkeypatch.setattr(exchanging.os, "rename", rename)
    [problem] = publish(SECOND, build, content)
    assert problem.message == "the edition could not be put in place: Device or resource busy"
    assert held(build) == FIRST
    assert beside(build) == []


def test_a_crash_between_the_two_renames_is_put_right(content: Path, build: Path) -> None:
    publish(FIRST, build, content)
    build.rename(build.parent / ".build-old-0123abcd")
    publish(SECOND, build.parent / ".build-new-0123abcd", content)
    assert publish(FIRST, build, content) == ()
    assert held(build) == FIRST
    assert beside(build) == []


def test_there_is_a_whole_edition_at_every_moment(
    content: Path, build: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Looked at before and after every rename and every write of the second publish."""
    publish(FIRST, build, content)
    seen: list[Mapping[str, bytes]] = []

    def watched(real: Callable[..., None]) -> Callable[..., None]:
        def call(*values: object) -> None:
            seen.append(held(build))
            real(*values)
            seen.append(held(build))

        return call

    monkeypatch.setattr(publishing, "_write", watched(publishing._write))
    monkeypatch.setattr(publishing, "exchange", watched(publishing.exchange))
    assert publish(SECOND, build, content) == ()
    assert all(state in (FIRST, SECOND) for state in seen)
    assert seen[-1] == SECOND


def test_a_place_where_no_folder_can_be_made_is_a_problem(content: Path, tmp_path: Path) -> None:
    (tmp_path / "plain").write_bytes(b"a file")
    [problem] = publish(FIRST, tmp_path / "plain" / "build", content)
    assert problem.code == "cannot-publish"
    assert (tmp_path / "plain").read_bytes() == b"a file"


def test_refusals_are_known_before_any_work(content: Path, build: Path) -> None:
    assert refusals(build, content) == ()
    assert [p.code for p in refusals(content, content)] == ["refused-folder"]
    assert not build.exists()
