"""Closed editions: bound once, kept as they were, compared with; and tiles that were withdrawn from all of them."""

from __future__ import annotations

import csv
import json
import re
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import html5lib
import pytest

from combobook import cli, records
from combobook.past import slug
from combobook.pipeline import check, publish, unpictured
from combobook.progress import Silent
from combobook.render.snapshot import snapshot, written
from tests.gallery.cases import GOOD
from tests.published_demo import CONTENT

B1, B2 = "B1,FR,2,PL,1,Quarry White,f01,middle,upright,2 mm,none", "Q77,FR,2,PL,1,Quarry White,f01,middle,upright,9 mm,none"


@pytest.fixture
def studio(tmp_path: Path) -> Path:
    folder = tmp_path / "my studio"
    shutil.copytree(GOOD, folder)
    return folder


def run(*words: object) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "combobook", *map(str, words)], capture_output=True, text=True, check=False
    )


def change(file: Path, before: str, after: str) -> None:
    text = file.read_text(encoding="utf-8")
    assert before in text
    file.write_text(text.replace(before, after), encoding="utf-8")


def next_term(studio: Path) -> None:
    change(studio / "studio.yaml", "edition: 2026 Autumn", "edition: 2027 Spring")


def log(studio: Path, *rows: str) -> None:
    file = studio / "logs/autumn.csv"
    file.write_text(file.read_text(encoding="utf-8").rstrip("\n") + "\n" + "\n".join(rows) + "\n", encoding="utf-8")


def published(studio: Path) -> Path:
    to = studio.parent / "book"
    done = publish(studio, to, Silent())
    assert [p for p in done.problems if p.is_error] == [] and list(done.output) == []
    return to / "site"


def words(page: Path) -> str:
    text = page.read_text(encoding="utf-8")
    html5lib.HTMLParser(strict=True).parse(text)
    main = text[text.index("<main") : text.index("</main>")]
    return " ".join(re.sub(r"<[^>]+>", " ", main).split())


@pytest.mark.parametrize(
    ("name", "file"),
    [
        ("2026 Autumn", "2026-autumn"), ("Été 2026 / n° 2", "ete-2026-n-2"), ("秋", "edition"), ("../x", "x"),
        ("x" * 300, "x" * 80), ("y" * 79 + " term", "y" * 79),
    ],
)
def test_an_edition_s_name_becomes_a_file_s_name(name: str, file: str) -> None:
    assert slug(name) == file


def test_an_edition_is_closed_once_and_never_written_again(studio: Path) -> None:
    first = run("bind", studio)
    assert (first.returncode, first.stderr) == (0, "")
    file = studio / "editions/2026-autumn.json"
    kept = file.read_bytes()
    assert json.loads(kept)["edition"] == "2026 Autumn"
    again = run("bind", studio)
    assert again.returncode == 1
    assert again.stderr.splitlines()[0] == (
        f"{studio}/studio.yaml:2:10: error: the edition 2026 Autumn is closed already: editions/2026-autumn.json"
    )
    assert file.read_bytes() == kept
    assert [p.name for p in (studio / "editions").iterdir()] == ["2026-autumn.json"]


@pytest.mark.parametrize("command", [["bind"], ["withdraw", "B1"]])
def test_where_nothing_can_be_written_that_is_said_and_what_to_do(
    studio: Path, command: list[str], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device", "editions/x")

    monkeypatch.setattr(records, "write_through", full)
    assert cli.run([*command, str(studio)]) == 1
    said = capsys.readouterr().err.splitlines()
    assert said[0] == "error: editions/x: no space left on device"
    assert said[1].startswith("help: see that there is room and that you may write there, then ")


def test_an_edition_with_an_error_is_not_closed(studio: Path) -> None:
    change(studio / "studio.yaml", "cone: 6", "cone: 60")
    done = run("bind", studio)
    assert done.returncode == 1 and "bad-cone" in done.stderr
    assert not (studio / "editions").exists()


def test_what_bind_writes_is_read_back_as_the_same(studio: Path) -> None:
    edition = unpictured(check(studio, Silent()))
    assert edition is not None
    now = snapshot(edition)
    assert run("bind", studio).returncode == 0
    assert (studio / "editions/2026-autumn.json").read_bytes() == written(now)
    book = check(studio, Silent()).book
    assert book is not None and book.editions == (now,)


def test_of_a_first_edition_the_page_says_that_there_is_nothing_to_compare(studio: Path) -> None:
    site = published(studio)
    assert "This is the first edition" in words(site / "changes.html")
    assert not (site / "editions").exists()
    sheet = subprocess.run(
        ["pdftotext", site.parent / "print/change-sheet.pdf", "-"], capture_output=True, text=True, check=True
    ).stdout
    assert "This is the first edition" in " ".join(sheet.split())


def test_the_next_edition_says_what_changed_and_why_and_the_closed_one_what_replaced_it(studio: Path) -> None:
    assert run("bind", studio).returncode == 0
    next_term(studio)
    log(studio, B2)
    site = published(studio)
    text = words(site / "changes.html")
    assert "What changed since 2026 Autumn" in text
    assert "1 verdict has changed" in text
    assert "Stricter now, and why (1) Pond Lantern over Ferry Rust" in text
    assert "New reason: Upright tile Q77 ran 9 mm" in text
    old = words(site / "editions/2026-autumn/combinations/pond-lantern-over-ferry-rust.html")
    assert "Closed edition 2026 Autumn: replaced by 2027 Spring. Do not glaze by this page." in old
    assert "Upright tile B1 ran 2 mm" in old and "Q77" not in old
    assert 'href="../../../combinations/pond-lantern-over-ferry-rust.html"' in (
        site / "editions/2026-autumn/combinations/pond-lantern-over-ferry-rust.html"
    ).read_text(encoding="utf-8")
    sheet = subprocess.run(
        ["pdftotext", "-layout", site.parent / "print/change-sheet.pdf", "-"], capture_output=True, text=True, check=True
    ).stdout
    assert "Ferry Rust first (FR), then Pond Lantern (PL)" in sheet and "Stricter now" in sheet


def test_a_new_a_retired_and_a_renamed_glaze_are_told_apart_and_old_addresses_still_lead_on(studio: Path) -> None:
    assert run("bind", studio).returncode == 0
    next_term(studio)
    lantern = studio / "glazes/pond-lantern.md"
    lantern.rename(studio / "glazes/lake-lantern.md")
    for file in (studio / "glazes/lake-lantern.md", *(studio / "combinations").glob("*.md")):
        text = file.read_text(encoding="utf-8").replace("Pond Lantern", "Lake Lantern").replace("pond-lantern", "lake-lantern")
        file.write_text(text, encoding="utf-8")
    change(studio / "glazes/lake-lantern.md", "name: Lake Lantern", "name: Lake Lantern\nwas: pond-lantern")
    change(studio / "glazes/ferry-rust.md", "name: Ferry Rust", "name: Ferry Rust\nstatus: retired")
    site = published(studio)
    text = words(site / "changes.html")
    assert "Renamed (1) Lake Lantern was called Pond Lantern" in text
    assert "Off the shelf since then (1) Ferry Rust retired" in text
    assert "New (" not in text and "No longer in the book" not in text
    for page, now in (("glazes/pond-lantern", "glazes/lake-lantern"),
                      ("combinations/pond-lantern-over-ferry-rust", "combinations/lake-lantern-over-ferry-rust")):  # fmt: skip
        moved = site / f"{page}.html"
        assert "this address has moved" in words(moved)
        assert f'href="../{now}.html"' in moved.read_text(encoding="utf-8")
    old = (site / "editions/2026-autumn/glazes/pond-lantern.html").read_text(encoding="utf-8")
    assert 'href="../../../glazes/lake-lantern.html"' in old


def called(studio: Path, before: str, now: str) -> None:
    """The glaze renamed, its file too, and what it was said."""
    old, new = before.lower().replace(" ", "-"), now.lower().replace(" ", "-")
    (studio / f"glazes/{old}.md").rename(studio / f"glazes/{new}.md")
    for file in (studio / f"glazes/{new}.md", *(studio / "combinations").glob("*.md")):
        text = re.sub(r"was: .*\n", "", file.read_text(encoding="utf-8"))
        file.write_text(text.replace(before, now).replace(old, new), encoding="utf-8")
    change(studio / f"glazes/{new}.md", f"name: {now}", f"name: {now}\nwas: {old}")


def test_the_addresses_of_a_glaze_that_was_renamed_twice_lead_on_from_every_name_it_had(studio: Path) -> None:
    assert run("bind", studio).returncode == 0
    next_term(studio)
    called(studio, "Pond Lantern", "Lake Lantern")
    assert run("bind", studio).returncode == 0
    change(studio / "studio.yaml", "edition: 2027 Spring", "edition: 2027 Autumn")
    called(studio, "Lake Lantern", "Moor Lantern")
    site = published(studio)
    for was in ("pond-lantern", "lake-lantern"):
        for page, now in ((f"glazes/{was}", "glazes/moor-lantern"),
                          (f"combinations/{was}-over-ferry-rust", "combinations/moor-lantern-over-ferry-rust")):  # fmt: skip
            assert f'href="../{now}.html"' in (site / f"{page}.html").read_text(encoding="utf-8"), page
    first = (site / "editions/2026-autumn/combinations/pond-lantern-over-ferry-rust.html").read_text(encoding="utf-8")
    assert 'href="../../../combinations/moor-lantern-over-ferry-rust.html"' in first
    assert "Renamed (1) Moor Lantern was called Lake Lantern" in words(site / "changes.html")


def test_a_withdrawn_tile_is_on_no_page_no_sheet_no_data_and_in_no_closed_edition(studio: Path) -> None:
    log(studio, B2)
    assert run("bind", studio).returncode == 0
    next_term(studio)
    done = run("withdraw", "q77", studio)
    assert done.returncode == 0
    assert f"{studio.as_posix()}/logs/autumn.csv:3   its row" in done.stdout
    assert "kinder about Pond Lantern over Ferry Rust" in done.stderr
    rows = list(csv.DictReader((studio / "editions/withdrawn.csv").read_text(encoding="utf-8").splitlines()))
    assert [row["tile"] for row in rows] == ["Q77"]
    site = published(studio)
    files = [path for path in site.parent.rglob("*") if path.suffix in (".html", ".json", ".csv", ".js")]
    assert len(files) > 20
    for path in files:
        text = path.read_text(encoding="utf-8")
        if path.name == "book.json":  # The warning that the row still lies there names it until it is deleted.
            text = json.dumps({k: v for k, v in json.loads(text).items() if k != "problems"})
        assert not re.search(r"\bQ77\b", text), path
    for sheet in (site.parent / "print").glob("*.pdf"):
        read = subprocess.run(["pdftotext", sheet, "-"], capture_output=True, text=True, check=True).stdout
        assert not re.search(r"\bQ77\b", read), sheet
    old = words(site / "editions/2026-autumn/combinations/pond-lantern-over-ferry-rust.html")
    assert "A reason is left out here, as its tile was withdrawn." in old


def test_what_withdraw_lists_is_all_that_must_go(studio: Path) -> None:
    (studio / "photos").mkdir()
    shutil.copy(CONTENT / "photos/drawing-a101.jpg", studio / "photos/q77.jpg")
    head = "tile,base,base coats,top,top coats,clay,firing,kiln shelf,stood,ran,faults,photo"
    (studio / "logs/photos.csv").write_text(f"{head}\nQ77,FR,2,PL,1,,,,,,,q77.jpg\n", encoding="utf-8")
    entry = studio / "combinations/pond-lantern-over-ferry-rust.md"
    entry.write_text("---\nbase: FR\ntop: PL\nphoto: q77.jpg\n---\n\n![a tile](../photos/q77.jpg)\n", encoding="utf-8")
    told = run("withdraw", "Q77", studio).stdout
    at = studio.as_posix()
    assert told.splitlines()[-5:] == [
        "It still lies in the folder. Delete:",
        f"    {at}/logs/photos.csv:2   its row",
        f"    {at}/combinations/pond-lantern-over-ferry-rust.md:4   the line that shows its picture",
        f"    {at}/combinations/pond-lantern-over-ferry-rust.md   in its text, the picture",
        f"    {at}/photos/q77.jpg",
    ]
    (studio / "logs/photos.csv").unlink()
    (studio / "photos/q77.jpg").unlink()
    entry.write_text("---\nbase: FR\ntop: PL\n---\n", encoding="utf-8")
    assert [p for p in check(studio, Silent()).problems if p.is_error] == []


def test_a_tile_is_withdrawn_once_and_an_unknown_one_not_at_all(studio: Path) -> None:
    assert run("withdraw", "B1", studio).returncode == 0
    kept = (studio / "editions/withdrawn.csv").read_bytes()
    again = run("withdraw", "B1", studio)
    assert again.returncode == 0 and "was withdrawn before" in again.stdout
    assert (studio / "editions/withdrawn.csv").read_bytes() == kept
    unknown = run("withdraw", "B11", studio)
    assert unknown.returncode == 2 and "no log has a tile `B11`" in unknown.stderr and "B1" in unknown.stderr
    assert run("withdraw", "B7", studio).returncode == 2


def test_a_second_tile_is_added_to_the_list_and_the_first_stays(studio: Path) -> None:
    log(studio, B2)
    for mark in ("B1", "Q77"):
        assert run("withdraw", mark, studio).returncode == 0
    rows = list(csv.DictReader((studio / "editions/withdrawn.csv").read_text(encoding="utf-8").splitlines()))
    assert [row["tile"] for row in rows] == ["B1", "Q77"]


KILLED = """
import os, signal, sys
moment = int(sys.argv.pop(1))
calls = {"n": 0}
def at_every(name):
    real = getattr(os, name)
    def called(*a, **k):
        calls["n"] += 1
        if calls["n"] == moment:
            os.kill(os.getpid(), signal.SIGKILL)
        return real(*a, **k)
    setattr(os, name, called)
for name in ("fsync", "link", "replace", "unlink", "open", "rename"):
    at_every(name)
from combobook.cli import run
sys.exit(run(sys.argv[1:]))
"""


@pytest.mark.parametrize("words", [("bind",), ("withdraw", "B1")], ids=["bind", "withdraw"])
def test_killed_at_any_moment_all_or_nothing_is_there_and_the_next_run_does_it(studio: Path, words: tuple[str, ...]) -> None:
    file = studio / ("editions/2026-autumn.json" if words[0] == "bind" else "editions/withdrawn.csv")
    killed, moment = 0, 0
    while True:
        moment += 1
        shutil.rmtree(studio / "editions", ignore_errors=True)
        done = subprocess.run(
            [sys.executable, "-c", KILLED, str(moment), *words, str(studio)], capture_output=True, text=True, check=False
        )
        if done.returncode != -signal.SIGKILL:
            assert done.returncode == 0, done.stderr
            break
        killed += 1
        if file.exists():
            assert not [p for p in check(studio, Silent()).problems if p.is_error]
        else:
            again = run(*words, studio)
            assert again.returncode == 0, again.stderr
            assert file.exists()
            assert [p.name for p in (studio / "editions").iterdir()] == [file.name]
    assert killed >= 3
