"""The starter goes through the real pass, from text to an edition in place."""

from __future__ import annotations

from pathlib import Path

import pytest

from combobook import cli


def held(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def test_a_started_studio_is_published_and_the_same_again_touches_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert cli.run(["start", "content"]) == 0
    assert cli.run(["publish"]) == 0, capsys.readouterr().err
    first = held(tmp_path / "build")
    pages = {"site/index.html", "site/glazes/attic-moth.html", "site/combinations/kettle-smoke-over-attic-moth.html"}
    assert pages | {"print/wall-chart.pdf", "data/book.json", "data/combinations.csv", ".combobook"} <= first.keys()
    index = tmp_path / "build/site/index.html"
    inode = index.stat().st_ino
    assert cli.run(["publish"]) == 0
    assert held(tmp_path / "build") == first
    assert index.stat().st_ino == inode


def test_an_error_leaves_the_edition_that_is_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert cli.run(["start", "content"]) == 0
    assert cli.run(["publish"]) == 0
    first = held(tmp_path / "build")
    (tmp_path / "content/glazes/attic-moth.md").write_text("no front matter\n")
    assert cli.run(["publish"]) == 1
    assert held(tmp_path / "build") == first
