"""The commands a potter types. Each prints every problem together and ends with 0, 1, 2 or 3.

0 fine; 1 errors in the content (with `--strict` warnings too), or no edition could be put in place; 2 wrong usage;
3 a fault of the program's own.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from combobook import __version__
from combobook.problems import Problem, printed

if TYPE_CHECKING:
    from combobook.link.asked import Pair
    from combobook.pipeline import Published
    from combobook.sources import Content

FINE, PROBLEMS, WRONG_USAGE, OWN_FAULT, INTERRUPTED = 0, 1, 2, 3, 130

_STRICT = click.option("--strict", is_flag=True, help="Let a warning stop it, as an error does.")
_TO = click.option(
    "--to", default="build", show_default=True, type=click.Path(path_type=Path), help="The folder for the edition."
)
_FOLDER = click.argument("folder", default="content", type=click.Path(path_type=Path))
# What a terminal would obey instead of showing: entries are written by students.
_CONTROLS = (*range(9), *range(11, 32), *range(127, 160))
_TURNS_TEXT_AROUND = (0x061C, 0x200E, 0x200F, *range(0x202A, 0x202F), *range(0x2066, 0x206A))
_UNSEEN = dict.fromkeys((*_CONTROLS, *_TURNS_TEXT_AROUND), "\N{REPLACEMENT CHARACTER}")


@click.group(context_settings={"help_option_names": ["--help", "-h"], "max_content_width": 100})
@click.version_option(__version__, prog_name="combobook")
def commands() -> None:
    """Turn a studio's plain-text glaze and test-tile entries into a checked site, wall chart and data.

    FOLDER is the studio's folder, `content` where none is named.
    """


@commands.command()
@click.argument("folder", type=click.Path(path_type=Path))
def start(folder: Path) -> int:
    """Lay out a new studio's folder, ready to check and publish."""
    from combobook.start import lay_out

    refusal = lay_out(folder)
    if refusal:
        raise click.UsageError(refusal)
    click.echo(f"{folder} is laid out. Next: combobook check {folder}, then combobook publish {folder}")
    return FINE


@commands.command()
@_FOLDER
@_STRICT
def check(folder: Path, strict: bool) -> int:
    """Read everything, print every problem, write nothing."""
    from combobook import pipeline
    from combobook.progress import Silent

    _must_be_there(folder, reads_only=True)
    checked = pipeline.check(folder, Silent())
    print_problems(checked.problems, lines_of(checked.content, checked.problems), f"{shown(folder)}/")
    _say(summary(checked.problems))
    return PROBLEMS if pipeline.stops(checked.problems, strict) else FINE


@commands.command()
@_FOLDER
@_TO
@_STRICT
def publish(folder: Path, to: Path, strict: bool) -> int:
    """Check, then make the site, the printed sheets and the data."""
    from combobook import pipeline
    from combobook.progress import progress_here

    _must_be_there(folder)
    _must_draw_sheets()
    return report(pipeline.publish(folder, to, progress_here(), strict=strict), folder, to)


@commands.command(short_help="Say why a layering is judged as it is, and which line each reason rests on.")
@click.argument("asked", metavar="BASE TOP [FOLDER]", nargs=-1, required=True)
def why(asked: tuple[str, ...]) -> int:
    """Say why a layering is judged as it is: every reason, what it rests on, and the line where that stands.

    BASE is the glaze that goes on first, TOP the one over it: a file name, a name or a mark, in any letter case, with
    quotes around a name that has a space in it. TOP-over-BASE names a layering too. A pair that nobody has tried is
    judged from its labels, and the answer says so.
    """
    from combobook.link.asked import pairs_meant

    meant = pairs_meant(asked)
    if not meant:
        raise click.UsageError("name two glazes, the one that goes on first and then the top: combobook why BASE TOP")
    folder = next((named for pair in meant if (named := _named(pair.folder)).is_dir()), _named(meant[0].folder))
    _must_be_there(folder, reads_only=True)
    return _explain(folder, tuple(pair for pair in meant if _named(pair.folder) == folder))


@commands.command()
@_FOLDER
@click.option("--students", type=click.IntRange(1, 500), help="How many are going to glaze.  [default: studio.yaml's]")
@click.option("--tiles", type=click.IntRange(1, 20), help="Tiles for each of them.  [default: studio.yaml's]")
@click.option("--table", type=click.IntRange(1, 500), help="Students at one table.  [default: studio.yaml's]")
@click.option("--seed", default=1, show_default=True, help="Another number, another plan as good.")
@click.option("--to", default="plan", show_default=True, type=click.Path(path_type=Path), help="The folder for it.")
def plan(folder: Path, to: Path, **asked: int | None) -> int:
    """Say which tiles to make next: a list for the wall, a slip for each student, and log rows already filled in.

    The studio's folder stays as it is: take the rows in when the tiles are brushed.
    """
    from combobook import pipeline
    from combobook.progress import progress_here

    _must_be_there(folder)
    _must_draw_sheets()
    given = {name: value for name, value in asked.items() if value is not None}
    published, edition = pipeline.plan_next(folder, to, progress_here(), given)
    if edition is not None and edition.plan is not None and published.files:
        from combobook.render.plan_text import plan_text

        click.echo(plan_text(edition.plan, edition.words))
    return report(published, folder, to, begin="print/plan.pdf")


@commands.command("take-in", short_help="Bring in a class's log or a list of glazes (CSV), and photographs of tiles.")
@click.argument("named", metavar="[FILE] [FOLDER]", nargs=-1, type=click.Path(path_type=Path))
@click.option("--photos", metavar="DIR", type=click.Path(path_type=Path), help="Photographs, with their tags in them.")
def take_in(named: tuple[Path, ...], photos: Path | None) -> int:
    """Bring in a class's log or a list of glazes, and photographs of tiles.

    FILE is a table saved as CSV. Good rows go into a new log in FOLDER, doubtful ones into a file beside FILE, each
    with its reason; nothing that is there is changed. FILE may be left out where DIR's pictures are all that is new.
    """
    from combobook.take_in import account
    from combobook.take_in import take_in as bring_in

    file, folder = _file_and_folder(named, photos)
    if not folder.is_dir():
        _must_be_there(folder)
    if photos is not None and not photos.is_dir():
        raise click.UsageError(f"there is no folder `{shown(photos)}` with photographs")
    try:
        done = bring_in(file, folder, photos)
    except OSError as error:
        return _unwritten(error, "take it in again; what was taken in before is there")
    print_problems(done.problems, done.lines, "")
    if done.stopped:
        _say(done.stopped)
        return PROBLEMS
    click.echo(account(done).translate(_UNSEEN))
    return PROBLEMS if done.doubtful and not done.taken and not done.known else FINE


def _unwritten(error: OSError, again: str) -> int:
    """Says what the system would not do, and what to do then."""
    where = f"{error.filename}: " if error.filename else ""
    _say(f"error: {where}{(error.strerror or str(error)).lower()}\n"
         f"help: see that there is room and that you may write there, then {again}")
    return PROBLEMS


def _file_and_folder(named: Sequence[Path], photos: Path | None) -> tuple[Path | None, Path]:
    """What is to be taken in, and where; with photographs a folder alone is the studio's."""
    if len(named) > 2:
        raise click.UsageError("name one file, and after it the studio's folder")
    if not named and photos is None:
        raise click.UsageError("name the file to take in, or photographs with --photos")
    if photos is not None and (not named or (len(named) == 1 and named[0].is_dir())):
        return None, (*named, _named(""))[0]
    file, folder = (*named, _named(""))[:2]
    if not file.is_file():
        raise click.UsageError(f"there is no file `{shown(file)}`")
    return file, folder


@commands.command()
@_FOLDER
def bind(folder: Path) -> int:
    """Close this term's edition: what it says is kept, and the next edition tells what changed."""
    from combobook import closing, pipeline
    from combobook.progress import Silent

    _must_be_there(folder)
    checked = pipeline.check(folder, Silent())
    edition = pipeline.unpictured(checked)
    if edition is None or pipeline.stops(checked.problems, strict=False):
        errors = tuple(problem for problem in checked.problems if problem.is_error)
        print_problems(errors, lines_of(checked.content, errors), f"{shown(folder)}/")
        _say("nothing was closed: an edition is closed without an error")
        return PROBLEMS
    try:
        done = closing.bind(edition, folder)
    except OSError as error:
        return _unwritten(error, "bind it again; nothing was closed")
    if isinstance(done, closing.Refused):
        at = f"{shown(folder)}/{done.place.path}:{done.place.line}:{done.place.column}: " if done.place else ""
        _say(f"{at}error: {done.message}\nhelp: {done.help}")
        return PROBLEMS
    name = edition.book.studio.edition.value
    click.echo(
        f"{name} is closed: {done.layerings} layerings and {done.glazes} glazes in {shown(folder / done.path)}.\n"
        "Next: write the new edition's name and date into studio.yaml; from then on the book says what changed."
    )
    return FINE


@commands.command()
@click.argument("tile")
@_FOLDER
def withdraw(tile: str, folder: Path) -> int:
    """Take a tile's picture and row out of the book and of every edition, from the next publish on."""
    import datetime as dt

    from combobook import closing, pipeline
    from combobook.progress import Silent

    _must_be_there(folder)
    checked = pipeline.check(folder, Silent())
    if checked.book is None or checked.judged is None:
        print_problems(checked.problems, lines_of(checked.content, checked.problems), f"{shown(folder)}/")
        return PROBLEMS
    today = dt.date.today()  # noqa: DTZ011  # The day in this room.
    try:
        done = closing.withdraw(checked.book, checked.judged, checked.entries.rows, tile, folder, today)
    except OSError as error:
        return _unwritten(error, "withdraw it again; the book still shows it")
    if isinstance(done, closing.Refused):
        raise click.UsageError(f"{done.message}; {done.help}")
    since = "was withdrawn before" if done.already else "is withdrawn"
    click.echo(f"tile {done.tile} {since}: publish, and no page, sheet or edition shows it.")
    if done.rows or done.photos:
        click.echo("It still lies in the folder. Delete:")
    for place in done.rows:
        click.echo(f"    {shown(folder)}/{place.at}   its row")
    for place in done.naming:
        click.echo(f"    {shown(folder)}/{place.at}   the line that shows its picture")
    for path in done.linking:
        click.echo(f"    {shown(folder)}/{path}   in its text, the picture")
    for photo in done.photos:
        click.echo(f"    {shown(folder)}/photos/{photo}")
    if done.kinder:
        _say(
            f"warning: without this tile the book is kinder about {', '.join(done.kinder)}. If it showed a fault or a "
            "run, write that into those entries (`keep off food`, or the glaze's `flow`), or test them again."
        )
    return FINE


@commands.command()
@_FOLDER
@_TO
@_STRICT
def show(folder: Path, to: Path, strict: bool) -> int:
    """Publish, serve the site on this machine, and publish again whenever a file changes.

    Pages come first; the printed sheets are made afterwards, and are not there until they speak of the same edition.
    """
    from combobook import pipeline
    from combobook.progress import progress_here
    from combobook.show import Outcome, keep_showing
    from combobook.show.sheets import SheetsAfterwards

    _must_be_there(folder)
    _must_draw_sheets()

    def once() -> Outcome:
        if not folder.is_dir():
            gone = f"there is no folder `{shown(folder)}` any more; the edition stays as it was"
            _say(gone)
            return Outcome(published=False, errors=gone.translate(_UNSEEN))
        published = pipeline.publish(folder, to, progress_here(), strict=strict, sheets=False)
        report(published, folder, to)
        return Outcome(published=bool(published.files), errors=_what_stopped(published, folder, to, strict))

    def guarded() -> Outcome:
        try:
            return once()
        except Exception as fault:  # noqa: BLE001  # The screen in the room keeps what it shows, whatever happens here.
            return Outcome(published=False, errors=_confess(fault))

    keep_showing(folder, to, guarded, _say, SheetsAfterwards(folder, to, _say, strict=strict))
    return FINE


def _what_stopped(published: Published, folder: Path, to: Path, strict: bool) -> str:
    """The problems that keep an edition from being published, as they are printed; empty where it is in place."""
    if published.files:
        return ""
    lines = lines_of(published.checked.content, published.problems)
    found = [printed(p, lines, f"{shown(folder)}/") for p in published.problems if p.is_error or strict]
    found += [printed(p, {}, f"{shown(to)}/") for p in published.output]
    return "\n\n".join(found).translate(_UNSEEN)


def run(arguments: Sequence[str]) -> int:
    """Run one command and give its exit code; whatever goes wrong, nobody meets a traceback."""
    try:
        code = commands.main(args=list(arguments), prog_name="combobook", standalone_mode=False)
        sys.stdout.flush()
        return int(code or FINE)
    except click.ClickException as wrong:
        wrong.show()
        return WRONG_USAGE
    except (click.Abort, KeyboardInterrupt):
        _say("stopped; what was published before is as it was")
        return INTERRUPTED
    except BrokenPipeError:
        # Nobody reads us any more: nothing may be flushed into the broken pipe when Python ends.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stderr.fileno())
        return FINE
    except SystemExit:
        raise
    except BaseException as fault:  # noqa: BLE001  # The last resort: WeasyPrint's own failures are no Exceptions.
        _confess(fault)
        return OWN_FAULT


def report(published: Published, folder: Path, to: Path, begin: str = "site/index.html") -> int:
    """Print what a publish found and came to; gives the exit code."""
    lines = lines_of(published.checked.content, published.problems)
    print_problems(published.problems, lines, f"{shown(folder)}/")
    for problem in published.output:
        # A problem of the edition as a whole has no path of its own: it is about the folder.
        whole = not problem.place.path
        named = replace(problem, place=replace(problem.place, path=shown(to))) if whole else problem
        print_problems((named,), {}, "" if whole else f"{shown(to)}/")
    every = (*published.problems, *published.output)
    _say(summary(every))
    if not published.files:
        kept = (to / begin).parent.is_dir()
        _say(f"nothing was published{f'; the edition in {shown(to)} is as it was' if kept else ''}")
        return PROBLEMS
    click.echo(f"published {len(published.files)} files: begin at {shown(to / begin)}")
    return FINE


def print_problems(problems: Iterable[Problem], lines: Mapping[str, Sequence[str]], prefix: str) -> None:
    """Each problem on standard error, with nothing in it that a terminal would obey."""
    for problem in problems:
        _say(printed(problem, lines, prefix))


def lines_of(content: Content, problems: Iterable[Problem]) -> Mapping[str, Sequence[str]]:
    """The authors' lines, by path, of the files that `problems` speak of."""
    wanted = {problem.place.path for problem in problems}
    return {source.path: source.lines for source in (*content.sources, *content.unread) if source.path in wanted}


def summary(problems: Sequence[Problem]) -> str:
    """`2 errors, 1 warning`, or that there is nothing to report."""
    errors = sum(problem.is_error for problem in problems)
    counts = ((errors, "error"), (len(problems) - errors, "warning"))
    return ", ".join(f"{n} {word}{'' if n == 1 else 's'}" for n, word in counts if n) or "no problems"


def shown(path: Path) -> str:
    """A path as the user wrote it, with forward slashes."""
    return path.as_posix()


def _named(folder: str) -> Path:
    """The folder that was named, or the one that is meant where none was."""
    return Path(folder or "content")


def _explain(folder: Path, pairs: Sequence[Pair]) -> int:
    """Print the account of the pair that is meant; where the content has errors, those instead."""
    import shutil

    from combobook import pipeline
    from combobook.judge import judge_pair
    from combobook.link.asked import Refusal, glazes_named
    from combobook.progress import Silent
    from combobook.render.why import Asked, as_text
    from combobook.render.why import why as account
    from combobook.wording import Words

    checked = pipeline.check(folder, Silent())
    book, theme, judged = checked.book, checked.theme, checked.judged
    if book is None or theme is None or judged is None or pipeline.stops(checked.problems, strict=False):
        print_problems(checked.problems, lines_of(checked.content, checked.problems), f"{shown(folder)}/")
        _say(f"{summary(checked.problems)}; nothing can be said of any glaze while an error stands")
        return PROBLEMS
    found = glazes_named(book, pairs)
    if isinstance(found, Refusal):
        raise click.UsageError(found.message)
    words = Words(theme.table, book.studio.units.value)
    base, top = found
    alone = base == top
    verdict = judged.glazes[base] if alone else judged.layerings.get(found) or judge_pair(book, base, top)
    reverse = None if alone else judged.layerings.get((top, base)) or judge_pair(book, top, base)
    asked = Asked(book=book, judged=judged, verdict=verdict, reverse=reverse, words=words)
    width = shutil.get_terminal_size().columns if sys.stdout.isatty() else 96
    where = "" if folder == _named("") else f' "{shown(folder)}"' if " " in shown(folder) else f" {shown(folder)}"
    other = f"combobook why {top} {base}{where}"
    text = as_text(account(asked), words, folder=f"{shown(folder)}/", width=width, other_command=other)
    sys.stdout.write(text.translate(_UNSEEN))
    return FINE


def _say(text: str) -> None:
    sys.stderr.write(f"{text.translate(_UNSEEN)}\n")


def _must_be_there(folder: Path, *, reads_only: bool = False) -> None:
    if folder.is_dir():
        _end_take_in(folder, reads_only)
        return
    what = f"`{folder}` is not a folder" if folder.exists() else f"there is no folder `{folder}` here"
    raise click.UsageError(f"{what}. Name the studio's folder, or lay one out with: combobook start {folder}")


def _end_take_in(folder: Path, reads_only: bool) -> None:
    """A take-in that was stopped while its files went to their places is brought to its end, or told of."""
    from combobook import journal

    if not journal.is_unfinished(folder):
        return
    if reads_only:
        _say("note: a take-in was stopped midway; the next one, or a publish, brings it to its end")
        return
    try:
        with journal.alone(folder):
            journal.finished(folder)
        _say("note: a take-in had been stopped midway; it is finished now")
    except (journal.Busy, OSError):
        _say("note: a take-in is at work in the folder, or was stopped midway: run it again")


def _must_draw_sheets() -> None:
    from combobook import machine

    lack = machine.missing((machine.SHEETS,))
    if lack:
        _say(f"printed sheets need libraries that this machine lacks. Run this, then the same command again:\n"
             f"    {machine.command_for(lack)}")
        raise SystemExit(OWN_FAULT)


def _confess(fault: BaseException) -> str:
    """One short paragraph on the screen, and given back; what happened goes into a log file."""
    import platform
    import tempfile
    import traceback

    account = (
        f"combobook {__version__}, Python {platform.python_version()}, {platform.platform()}\n"
        f"arguments: {sys.argv[1:]}\n\n{''.join(traceback.format_exception(fault))}"
    )
    try:
        with tempfile.NamedTemporaryFile(
            "w", prefix="combobook-", suffix=".log", delete=False, encoding="utf-8", errors="backslashreplace"
        ) as log:
            log.write(account)
        where = f"What happened is written down in {log.name}: please send that file to whoever looks after combobook."
    except OSError:
        where = f"No log could be written. It was: {type(fault).__name__}: {fault}. Please report that."
    said = (
        "combobook met a fault of its own and stopped. Your folder and the last edition are as they were. "
        f"{where}"
    )
    _say(said)
    return said.translate(_UNSEEN)
