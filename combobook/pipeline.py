"""The pass, stop by stop. Read this first: every command is a prefix of it.

    text → read → parse → validate → link → judge → plan → picture → render → check the output → publish

Each stage takes values and gives `(values, problems)`; none knows another. Only read, picture and publish touch the
disk.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, ParamSpec, TypeVar

from combobook.book import Book
from combobook.entries import Entries
from combobook.judge import judge, judge_every_pair
from combobook.link import link
from combobook.parse import parse
from combobook.plans import Asked
from combobook.problems import Problem, in_order
from combobook.progress import Progress
from combobook.read import read
from combobook.sources import Content
from combobook.theme import Theme, load_theme
from combobook.validate import validate
from combobook.verdicts import Judged

if TYPE_CHECKING:
    from combobook.edition import Edition
    from combobook.printing import Made, Waiting

P = ParamSpec("P")
T = TypeVar("T")
CACHE = ".combobook-cache"


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """A folder read as far as it goes: everything found, and the authors' lines to show with it."""

    content: Content
    entries: Entries
    book: Book | None
    theme: Theme | None
    judged: Judged | None
    problems: tuple[Problem, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """What a publish came to. `files` is empty where problems stopped it; `output` places are paths from `to`."""

    checked: Checked
    problems: tuple[Problem, ...]
    output: tuple[Problem, ...]
    files: tuple[str, ...]


def check(folder: Path, progress: Progress) -> Checked:
    """Read, parse, validate, link, judge: every problem of every file, nothing written."""
    run = _Run(progress)
    content = run("read", read, folder)
    raw = run("parse", parse, content)
    entries = run("validate", validate, raw)
    book = run("link", link, entries, content.photos)
    theme = run("theme", _theme, book)
    judged = run("judge", judge, book) if book else None
    problems = in_order(run.problems)
    return Checked(content=content, entries=entries, book=book, theme=theme, judged=judged, problems=problems)


def publish(folder: Path, to: Path, progress: Progress, *, strict: bool = False, sheets: bool = True) -> Published:
    """The whole pass into `to`. Where a problem stops it (with `strict` a warning does), the edition there stays.

    Without `sheets` none are made: an edition of pages and data alone for whoever waits for them, except where the
    sheets that lie at `to` were made from just this.
    """
    # Imported here so that `check` starts in a blink: pictures, templates and sheets are heavy.
    from combobook.check_output import check_output
    from combobook.picture import another_tile, picture
    from combobook.plan import plan
    from combobook.printing import lying, made_from, note, side_by_side
    from combobook.publish import publish as put
    from combobook.publish import refusals
    from combobook.render.data import data
    from combobook.render.plan_data import plan_data
    from combobook.render.sheets.every import SHEETS
    from combobook.render.site import site

    checked = check(folder, progress)
    run, out = _Run(progress, checked.problems), _Run(progress, refusals(to, folder))
    edition = unpictured(checked)
    if edition is None or stops(run.problems, strict) or out.problems:
        return _ended(checked, run, out)
    book = edition.book
    pictures = run("picture", picture, folder, _photographs_shown(book), to.parent / CACHE)
    run("picture: tags", _nothing_but(another_tile), book, pictures)
    if stops(run.problems, strict):
        return _ended(checked, run, out)
    pairs = run("judge: every pair", judge_every_pair, book)
    planned = run("plan", plan, book, pairs, asked(book))
    edition = replace(edition, pictures=pictures, problems=in_order(run.problems), pairs=pairs, plan=planned)
    origin = made_from(checked.content, edition)
    with side_by_side(SHEETS if sheets else (), edition, lying(to, to.parent / CACHE, origin)) as making:
        printed = _printed(run, making)
    sheet_paths = tuple(path for _, (made, _) in printed for path in made)
    files = _together(
        *(made for _, (made, _) in printed),
        run("render: site", site, replace(edition, sheets=sheet_paths), again=not sheets),
        run("render: data", data, edition),
        run("render: plan's tables", plan_data, edition),
    )
    out("check the output", _nothing_but(check_output), files)
    if not stops(run.problems, strict) and not stops(out.problems, strict):
        out("publish", _nothing_but(put), files, to, folder)
        note(to, to.parent / CACHE, origin, printed)
    return _ended(checked, run, out, () if stops((*run.problems, *out.problems), strict) else sorted(files))


def unpictured(checked: Checked) -> Edition | None:
    """The edition without its pictures, for what needs its words alone; None where no book could be made."""
    from combobook.edition import Edition
    from combobook.wording import Words

    book, theme, judged = checked.book, checked.theme, checked.judged
    if book is None or theme is None or judged is None:
        return None
    words = Words(theme.table, book.studio.units.value)
    return Edition(
        book=book, judged=judged, pictures={}, theme=theme, words=words, problems=checked.problems
    )


def asked(book: Book) -> Asked:
    """The class that the studio says it has."""
    studio = book.studio
    return Asked(students=studio.students.value, tiles=studio.tiles_each.value, table=studio.seats.value)


def plan_next(
    folder: Path, to: Path, progress: Progress, asked_for: Mapping[str, int]
) -> tuple[Published, Edition | None]:
    """Which tiles to make next: the plan's sheets and tables, into a folder of their own; the studio's stays as it is.

    `asked_for` overrides what the studio says of its class (fields of `plans.Asked`). No edition where errors stand.
    """
    from combobook.plan import plan
    from combobook.publish import publish as put
    from combobook.publish import refusals
    from combobook.render.plan_data import plan_data
    from combobook.render.sheets.every import OF_A_PLAN

    checked = check(folder, progress)
    run, out = _Run(progress, checked.problems), _Run(progress, refusals(to, folder))
    edition = unpictured(checked)
    if edition is None or stops(run.problems, strict=False) or out.problems:
        return _ended(checked, run, out), None
    pairs = run("judge: every pair", judge_every_pair, edition.book)
    planned = run("plan", plan, edition.book, pairs, replace(asked(edition.book), **asked_for))
    edition = replace(edition, pairs=pairs, plan=planned)
    files = _together(
        *(run(f"render: {sheet.__name__.replace('_', ' ')}", sheet, edition) for sheet in OF_A_PLAN),
        run("render: plan's tables", plan_data, edition),
    )
    out("publish", _nothing_but(put), files, to, folder)
    return _ended(checked, run, out, () if stops(out.problems, False) else sorted(files)), edition


def stops(problems: Iterable[Problem], strict: bool) -> bool:
    """True when these keep an edition from being published: an error, or with `strict` anything at all."""
    return any(strict or problem.is_error for problem in problems)


class _Run:
    """Runs stages one after another: names each to `progress` and keeps what each found."""

    def __init__(self, progress: Progress, problems: Iterable[Problem] = ()) -> None:
        self._progress = progress
        self.problems = list(problems)

    def __call__(
        self, name: str, stage: Callable[P, tuple[T, Sequence[Problem]]], *values: P.args, **named: P.kwargs
    ) -> T:
        with self._progress.stage(name):
            value, found = stage(*values, **named)
        self.problems.extend(found)
        return value


def _printed(run: _Run, making: Iterable[Waiting]) -> list[tuple[str, Made]]:
    """Each sheet's files, and what was found while it was made, by its name."""
    printed: list[tuple[str, Made]] = []
    for name, made in making:
        before = len(run.problems)
        files = run(f"render: {name}", made)
        printed.append((name, (files, tuple(run.problems[before:]))))
    return printed


def _ended(checked: Checked, run: _Run, out: _Run, files: Iterable[str] = ()) -> Published:
    return Published(
        checked=checked, problems=in_order(run.problems), output=in_order(out.problems), files=tuple(files)
    )


def _theme(book: Book | None) -> tuple[Theme | None, Sequence[Problem]]:
    if book is None:
        return None, ()
    theme, language = book.studio.theme, book.studio.language
    return load_theme(theme.value, language.value, theme.place, language.place)


def _photographs_shown(book: Book) -> tuple[str, ...]:
    """Names in photos/ that some page or sheet shows, sorted."""
    written = [c.photo.value for c in book.combinations.values()] + [t.photo.value for t in book.tiles]
    linked = [link.id for link in book.links.values() if link.kind == "photos"]
    return tuple(sorted({name for name in written if isinstance(name, str)} | set(linked)))


def _together(*parts: Mapping[str, bytes]) -> dict[str, bytes]:
    """All files of an edition. Raises ValueError where two parts made the same one."""
    files: dict[str, bytes] = {}
    for part in parts:
        if doubled := sorted(files.keys() & part.keys()):
            raise ValueError(f"two stages made {', '.join(doubled)}")
        files.update(part)
    return files


def _nothing_but(stage: Callable[P, tuple[Problem, ...]]) -> Callable[P, tuple[None, tuple[Problem, ...]]]:
    """A stage that only finds, in the form of one that also gives a value."""

    def run(*values: P.args, **named: P.kwargs) -> tuple[None, tuple[Problem, ...]]:
        return None, stage(*values, **named)

    return run
