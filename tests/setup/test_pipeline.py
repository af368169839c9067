"""The pass: which stages run in which order, and what stops an edition. Stages are stand-ins here; each has tests of its own."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from io import StringIO
from pathlib import Path
from types import ModuleType, SimpleNamespace
from typing import Any

import pytest

from combobook import pipeline
from combobook.problems import Place, Problem, Severity
from combobook.progress import PlainLines

PAGE = b'<!doctype html><html lang="en"><head><title>x</title></head><body><h1>x</h1></body></html>'


def a_problem(severity: Severity, code: str, path: str = "glazes/attic-moth.md") -> Problem:
    return Problem(place=Place(path=path, line=1), severity=severity, code=code, message="something")


ERROR, WARNING = a_problem(Severity.ERROR, "an-error"), a_problem(Severity.WARNING, "a-warning")


class Noted:
    def __init__(self) -> None:
        self.stages: list[str] = []

    @contextmanager
    def stage(self, name: str) -> Iterator[None]:
        self.stages.append(name)
        yield


class Stages:
    """What each stand-in gives back; a test changes one and runs the pass."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
        self.folder, self.to = tmp_path / "content", tmp_path / "build"
        self.folder.mkdir()
        word = SimpleNamespace(value="x", place=Place(path="studio.yaml", line=1))
        few = SimpleNamespace(value=2)
        studio = SimpleNamespace(theme=word, language=word, units=word, students=few, tiles_each=few, seats=few)
        self.book: Any = SimpleNamespace(
            studio=studio, links={}, combinations={}, tiles=(SimpleNamespace(photo=SimpleNamespace(value="b117.jpg")),)
        )
        self.found: dict[str, tuple[Problem, ...]] = {}
        self.files: dict[str, bytes] = {"site/index.html": PAGE}
        self.pictures_asked: list[tuple[str, ...]] = []
        self.editions: list[Any] = []
        content = SimpleNamespace(sources=(), unread=(), photos=("b117.jpg",))
        for name, value in (("read", content), ("parse", ()), ("validate", ()), ("judge", "judged"), ("judge_every_pair", {}), ("load_theme", SimpleNamespace(table={}, language="en", folders=()))):
            monkeypatch.setattr(pipeline, name, self.stand_in(name, value))
        monkeypatch.setattr(pipeline, "link", lambda *values: (self.book, self.found.get("link", ())))
        self.module(monkeypatch, "combobook.picture", picture=self.picture, another_tile=self.another_tile)
        self.module(monkeypatch, "combobook.render.site", site=self.site)
        self.module(monkeypatch, "combobook.plan", plan=self.stand_in("plan", None))
        self.module(monkeypatch, "combobook.render.sheets.every", SHEETS=(self.wall_chart,), OF_A_PLAN=())
        self.module(monkeypatch, "combobook.render.plan_data", plan_data=self.stand_in("plan_data", {}))
        self.module(monkeypatch, "combobook.render.data", data=self.stand_in("data", {"data/book.json": b"{}\n"}))

    def stand_in(self, name: str, value: Any) -> Any:
        return lambda *values: (value, self.found.get(name, ()))

    def picture(self, folder: Path, names: tuple[str, ...], cache: Path) -> Any:
        self.pictures_asked.append(names)
        assert cache == self.to.parent / ".combobook-cache"
        return {}, self.found.get("picture", ())

    def another_tile(self, book: Any, pictures: Any) -> tuple[Problem, ...]:
        return self.found.get("picture: tags", ())

    def wall_chart(self, edition: Any) -> Any:
        return {"print/chart.txt": b"chart"}, self.found.get("wall_chart", ())

    def site(self, edition: Any, *, again: bool = False) -> Any:
        self.editions.append(edition)
        return self.files, ()

    @staticmethod
    def module(monkeypatch: pytest.MonkeyPatch, name: str, **members: Any) -> None:
        module = ModuleType(name)
        module.__dict__.update(members)
        monkeypatch.setitem(sys.modules, name, module)

    def publish(self, strict: bool = False) -> tuple[pipeline.Published, list[str]]:
        noted = Noted()
        return pipeline.publish(self.folder, self.to, noted, strict=strict), noted.stages

    @property
    def published(self) -> bool:
        return (self.to / "site/index.html").is_file()


@pytest.fixture
def stages(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Stages:
    return Stages(monkeypatch, tmp_path)


TO_JUDGE = ["read", "parse", "validate", "link", "theme", "judge"]
TO_PICTURES = [*TO_JUDGE, "picture", "picture: tags"]
RENDERED = [
    *TO_PICTURES, "judge: every pair", "plan", "render: wall chart", "render: site", "render: data", "render: plan's tables",
    "check the output",
]  # fmt: skip


def test_a_sound_folder_goes_through_every_stage_in_order(stages: Stages) -> None:
    published, names = stages.publish()
    assert names == [*RENDERED, "publish"]
    assert (published.problems, published.output) == ((), ())
    assert published.files == ("data/book.json", "print/chart.txt", "site/index.html")
    assert stages.editions[0].sheets == ("print/chart.txt",)
    assert stages.published
    assert stages.pictures_asked == [("b117.jpg",)]


@pytest.mark.parametrize("stage", ["read", "parse", "validate", "link", "judge", "load_theme"])
def test_an_error_anywhere_lets_the_rest_look_on_but_renders_nothing(stages: Stages, stage: str) -> None:
    stages.found = {stage: (ERROR,), "judge": (WARNING, *((ERROR,) if stage == "judge" else ()))}
    published, names = stages.publish()
    assert names == TO_JUDGE
    assert published.problems == (ERROR, WARNING)
    assert published.files == ()
    assert not stages.published


def test_without_a_usable_studio_nothing_is_judged(stages: Stages) -> None:
    stages.book, stages.found = None, {"link": (ERROR,)}
    published, names = stages.publish()
    assert names == TO_JUDGE[:-1]
    assert published.problems == (ERROR,)


def test_a_picture_that_cannot_be_used_stops_it_before_rendering(stages: Stages) -> None:
    stages.found = {"picture": (ERROR,)}
    published, names = stages.publish()
    assert names == TO_PICTURES
    assert published.problems == (ERROR,)
    assert not stages.published


def test_a_warning_is_published_with_the_edition(stages: Stages) -> None:
    stages.found = {"link": (WARNING,)}
    published, names = stages.publish()
    assert names[-1] == "publish"
    assert published.problems == (WARNING,)
    assert stages.editions[0].problems == (WARNING,)
    assert stages.published


def test_a_warning_stops_a_strict_edition(stages: Stages) -> None:
    stages.found = {"link": (WARNING,)}
    published, names = stages.publish(strict=True)
    assert names == TO_JUDGE
    assert published.files == ()


def test_a_fault_in_the_output_stops_it_and_the_old_edition_stays(stages: Stages) -> None:
    stages.publish()
    before = (stages.to / "site/index.html").stat()
    stages.files = {"site/index.html": PAGE, "site/broken.html": PAGE.replace(b"<h1>", b'<h1><a href="gone.html">')}
    published, names = stages.publish()
    assert names == RENDERED
    assert [p.code for p in published.output] == ["dead-link"]
    assert published.files == ()
    assert (stages.to / "site/index.html").stat() == before
    assert not (stages.to / "site/broken.html").exists()


def test_a_folder_that_may_not_be_replaced_is_known_before_anything_is_made(stages: Stages) -> None:
    stages.to.mkdir()
    (stages.to / "thesis.odt").write_bytes(b"years of work")
    published, names = stages.publish()
    assert names == TO_JUDGE
    assert [p.code for p in published.output] == ["refused-folder"]
    assert published.files == ()


def test_two_stages_that_make_one_file_are_a_fault_of_ours(stages: Stages) -> None:
    stages.files = {"data/book.json": b"{}"}
    with pytest.raises(ValueError, match="two stages made"):
        stages.publish()
    assert not stages.published


def test_plain_progress_is_one_line_a_stage_with_its_time() -> None:
    out = StringIO()
    progress = PlainLines(out)
    for name in ("read", "render: wall chart"):
        with progress.stage(name):
            pass
    assert out.getvalue() == "read                   0.00 s\nrender: wall chart     0.00 s\n"
