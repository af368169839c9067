"""A whole term at the command line, from an empty folder to the second edition that is closed."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import html5lib

from tests.picture.photographs import coded, plain
from tests.picture.scenes import SLANTED, Scene, photograph
from tests.take_in.classes import contents, rows_of
from tests.term import class_files

TEXTS = (".html", ".json", ".js", ".csv")
SHOWN_BY_TAG, SHOWN_BY_NAME = 20, 21
"""Rows of the plan whose tiles are photographed."""
BLUE = (40.0, -5.0, -30.0)
FIRING = "---\ncone: 6\ndate: 2026-10-20\nkiln: Kiln A\nwitness:\n  upper: 6\n  lower: 6\n---\n"


class Term:
    """A teacher's desk: the studio's folder, the book, and what came in; every command as typed."""

    def __init__(self, desk: Path) -> None:
        self.desk, self.studio, self.site = desk, desk / "studio", desk / "book/site"

    def run(self, *words: str, code: int = 0) -> str:
        """What a command says, after its exit code and that no warning is a traceback were looked at."""
        done = subprocess.run(
            [sys.executable, "-m", "combobook", *words], capture_output=True, text=True, check=False, cwd=self.desk
        )
        assert done.returncode == code, done.stdout + done.stderr
        assert "Traceback" not in done.stderr and "fault of its own" not in done.stderr
        return done.stdout + done.stderr

    def came(self, name: str, data: bytes) -> str:
        (self.desk / name).parent.mkdir(exist_ok=True)
        (self.desk / name).write_bytes(data)
        return name

    def edit(self, path: str, before: str, after: str) -> None:
        text = (self.studio / path).read_text(encoding="utf-8")
        assert before in text
        (self.studio / path).write_text(text.replace(before, after), encoding="utf-8")

    def names(self) -> dict[str, str]:
        """Each glaze's name by its file's."""
        files = (self.studio / "glazes").glob("*.md")
        return {f.stem: str(re.search(r"^name: (.+)$", f.read_text(encoding="utf-8"), re.MULTILINE)[1]) for f in files}  # type: ignore[index]

    def says(self, page: str) -> str:
        """The words of a page's main part."""
        text = (self.site / page).read_text(encoding="utf-8")
        main = html5lib.parse(text, namespaceHTMLElements=False).find(".//main")
        return " ".join("".join(main.itertext()).split())


def test_a_whole_term(tmp_path: Path) -> None:
    term = Term(tmp_path)
    set_up(term)
    rows = plan(term)
    brushing(term, rows)
    unloading(term, rows)
    photographs(term, rows)
    first_edition(term, rows)
    second_edition(term, rows)


def set_up(term: Term) -> None:
    """A folder is laid out, its first lines are edited, and the list of jars becomes entries."""
    term.run("start", "studio")
    term.run("start", "studio", code=2)
    term.edit("studio.yaml", "studio: Our pottery room", "studio: Weir Street evening class")
    term.edit("studio.yaml", "edition: First edition", "edition: 2026 Autumn")
    term.edit("studio.yaml", "date: 2026-09-01", "date: 2026-11-20")
    term.edit("studio.yaml", "food rule: one glaze alone", "food rule: labels")
    said = term.run("take-in", term.came("jars.csv", class_files.SHELF_LIST.encode()), "studio")
    assert "6 glazes" in said
    assert len(term.names()) == 9
    term.run("check", "studio")


def plan(term: Term) -> list[dict[str, str]]:
    """168 tiles for 28 students; the folder stays as it is."""
    before = contents(term.studio)
    term.run("plan", "studio", "--students", "28", "--tiles", "6", "--table", "4", "--seed", "3")
    assert contents(term.studio) == before
    rows = class_files.planned((term.desk / "plan/data/planned-rows.csv").read_bytes())
    assert len({row["tile"] for row in rows}) == len(rows) == class_files.ROWS
    assert not {row["tile"] for row in rows} & {"A1", "A2", "A3", "A4"}
    assert "orchard-bell" not in {row["base"] for row in rows}, "it goes near the rim only, so never first"
    return rows


def brushing(term: Term, rows: list[dict[str, str]]) -> None:
    """The class's file comes as it comes; the doubtful rows go back and come again, mended."""
    names = term.names()
    file = term.came("class.csv", class_files.brushed(rows, names))
    taken = class_files.ROWS - 1 - class_files.DOUBTFUL
    said = term.run("take-in", file, "studio")
    assert f"{taken} rows" in said and re.search(rf"doubtful +{class_files.DOUBTFUL}\b", said)
    before = contents(term.studio)
    assert f"{taken + 1}" in str(re.search(r"already there +(\d+)", term.run("take-in", file, "studio")))
    assert contents(term.studio) == before, "a second time adds nothing"
    written = b"".join(before.values())
    assert [who for who in (*class_files.PEOPLE, "Pupil") if who.encode() in written] == []
    doubtful = (term.desk / "class-doubtful.csv").read_bytes()
    said = term.run("take-in", term.came("mended.csv", class_files.mended(doubtful, rows, names)), "studio")
    assert f"{class_files.DOUBTFUL} rows" in said and re.search(r"doubtful +0\b", said), said
    logged = [row["tile"] for log in sorted((term.studio / "logs").glob("2026-autumn-*.csv")) for row in rows_of(log)]
    assert sorted(logged) == sorted(row["tile"] for row in rows[: class_files.ROWS - 1])
    term.run("check", "studio")


def unloading(term: Term, rows: list[dict[str, str]]) -> None:
    """Two weeks later the kiln is unloaded: results fill the blanks, and nothing that was written is changed."""
    (term.studio / "firings/autumn-load.md").write_text(FIRING, encoding="utf-8")
    before = contents(term.studio)
    del before["logs/columns.yaml"]  # How headings are read: the new table's are added.
    said = term.run("take-in", term.came("results.csv", class_files.results(rows)), "studio")
    assert re.search(r"doubtful +0\b", said) and f"{class_files.ROWS - 1} rows" in said, said
    after = contents(term.studio)
    assert {path: after[path] for path in before} == before
    term.run("check", "studio")


def photographs(term: Term, rows: list[dict[str, str]]) -> None:
    """A phone's pictures: one told by the tag in it, one by its name, one nobody's."""
    by_tag, by_name = rows[SHOWN_BY_TAG]["tile"], rows[SHOWN_BY_NAME]["tile"]
    term.came("phone/IMG_0001.jpg", photograph(Scene(glaze=BLUE, tag=by_tag, view=SLANTED)))
    term.came(f"phone/{by_name}.jpg", coded(plain((90, 60, 40)), "JPEG"))
    term.came("phone/lunch.jpg", coded(plain((30, 60, 40)), "JPEG"))
    said = term.run("take-in", "studio", "--photos", "phone")
    assert "(1 told by tag, 1 by name)" in said and "lunch.jpg" in said
    assert {f.name for f in (term.studio / "photos").iterdir()} == {f"{by_tag.lower()}.jpg", f"{by_name.lower()}.jpg"}


def first_edition(term: Term, rows: list[dict[str, str]]) -> None:
    """Published, and closed once."""
    term.run("publish", "studio", "--to", "book")
    for row in (rows[SHOWN_BY_TAG], rows[SHOWN_BY_NAME]):
        page = f"combinations/{row['top']}-over-{row['base']}.html"
        assert row["tile"] in term.says(page)
        assert "pictures/" in (term.site / page).read_text(encoding="utf-8")
    assert {f.name for f in (term.desk / "book/print").iterdir()} >= {"wall-chart.pdf", "book.pdf", "loading-sheet.pdf"}
    assert "2026 Autumn is closed" in term.run("bind", "studio")
    closed = (term.studio / "editions/2026-autumn.json").read_bytes()
    assert "closed already" in term.run("bind", "studio", code=1)
    assert (term.studio / "editions/2026-autumn.json").read_bytes() == closed


def second_edition(term: Term, rows: list[dict[str, str]]) -> None:
    """A tile is withdrawn, a glaze retired, one renamed, a label read again; the book says what changed."""
    row = rows[SHOWN_BY_TAG]
    mark, page = row["tile"], f"combinations/{row['top']}-over-{row['base']}.html"
    picture = re.search(r"pictures/[\w-]+\.jpg", (term.site / page).read_text(encoding="utf-8"))
    assert picture is not None
    said = term.run("withdraw", mark, "studio")
    assert f"photos/{mark.lower()}.jpg" in said
    delete_what_is_left(term, said)
    term.edit("studio.yaml", "edition: 2026 Autumn", "edition: 2027 Spring")
    term.edit("studio.yaml", "date: 2026-11-20", "date: 2027-03-20")
    term.edit("glazes/kettle-smoke.md", "status: in use", "status: retired")
    term.edit("glazes/attic-moth.md", "food label: yes", "food label: no")
    rename(term, "flint-nettle", "fen-nettle", "Flint Nettle", "Fen Nettle")
    term.run("publish", "studio", "--to", "book")
    changed = term.says("changes.html")
    for words in ("Kettle Smoke", "Fen Nettle", "Attic Moth", "2026 Autumn"):
        assert words in changed
    moved = (term.site / "glazes/flint-nettle.html").read_text(encoding="utf-8")
    assert "fen-nettle.html" in moved
    everything = contents(term.desk / "book")
    texts = {path: data.decode("utf-8", "replace") for path, data in everything.items() if path.endswith(TEXTS)}
    # (The line of a drawing may hold any letter and figure.)
    said = {path: re.sub(r'\sd="[^"]*"', "", text) for path, text in texts.items()}
    shown = re.compile(rf"\b{mark}\b|{re.escape(picture[0])}")
    assert [path for path, text in said.items() if shown.search(text)] == [], "a withdrawn tile is in no edition"
    assert [path for path in everything if path.startswith("site/editions/2026-autumn/")] != []
    assert "2027 Spring is closed" in term.run("bind", "studio")
    spring = json.loads((term.studio / "editions/2027-spring.json").read_bytes())
    assert spring["edition"] == "2027 Spring"
    same = contents(term.desk / "book")
    assert same == everything, "binding writes a record and leaves the book as it is"


def delete_what_is_left(term: Term, said: str) -> None:
    """The rows and files that `withdraw` names, the last row first so that the others stay where it says."""
    rows = re.findall(r"^ +studio/(logs/[^:]+):(\d+)   its row$", said, re.MULTILINE)
    assert rows != []
    for path, line in sorted(((path, int(line)) for path, line in rows), reverse=True):
        lines = (term.studio / path).read_bytes().splitlines(keepends=True)
        del lines[line - 1]
        (term.studio / path).write_bytes(b"".join(lines))
    for path in re.findall(r"^ +studio/(photos/\S+)$", said, re.MULTILINE):
        (term.studio / path).unlink()


def rename(term: Term, old: str, new: str, name: str, to: str) -> None:
    """As a teacher renames a glaze: its file, its name, where it was, and every entry that names its file."""
    text = (term.studio / f"glazes/{old}.md").read_text(encoding="utf-8").replace(f"name: {name}", f"name: {to}\nwas: {old}")
    (term.studio / f"glazes/{old}.md").unlink()
    (term.studio / f"glazes/{new}.md").write_text(text, encoding="utf-8")
    for file in (*(term.studio / "combinations").iterdir(), *(term.studio / "logs").glob("*.csv")):
        file.write_text(file.read_text(encoding="utf-8").replace(old, new), encoding="utf-8")
    for file in list((term.studio / "combinations").glob(f"*{old}*")):
        file.rename(file.with_name(file.name.replace(old, new)))
