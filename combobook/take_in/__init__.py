"""Take-in: a table from outside, and photographs, into a studio's folder. A pass of its own:

    read the file → match its columns → rows → sort into new, known, doubtful → try → write all or nothing

What exists is never edited; what is doubtful goes back beside the file it came in.
"""

from __future__ import annotations

import os
from pathlib import Path

from combobook import journal
from combobook.pipeline import Checked, check
from combobook.problems import Problem
from combobook.progress import Silent
from combobook.take_in.account import TakenIn, account
from combobook.take_in.run import Run
from combobook.take_in.settled import GLAZES, PATH

_ASKED_OF_A_LOG = (
    "studio.yaml", "glazes", "combinations", "clays", "firings", "logs", "photos", "editions/withdrawn.csv", ".",
)  # fmt: skip
__all__ = ["TakenIn", "account", "take_in"]


def take_in(file: Path | None, folder: Path, photos: Path | None) -> TakenIn:
    """Take in a file, photographs, or both: all is written or nothing, whatever stops it. Raises OSError."""
    try:
        with journal.alone(folder):
            resumed = journal.finished(folder)
            return _taken_in(file, folder, photos, resumed)
    except journal.Busy:
        return TakenIn(stopped=f"another take-in is at work in {folder.as_posix()}: run this one when it is done")


def _taken_in(file: Path | None, folder: Path, photos: Path | None, resumed: bool) -> TakenIn:
    if file is not None and _within(file, folder):
        return TakenIn(
            stopped=f"{file.as_posix()} lies in the studio's own folder, whose files are all the book's: "
            "move it out, then take it in from there"
        )
    checked = check(folder, Silent())
    run = Run(file=file, folder=folder, photos=photos, resumed=resumed, checked=checked)
    if run.table_problem is not None:
        return run.stopped((run.table_problem,), "nothing was taken in")
    if run.columns is not None and not run.columns.usable:
        return run.stopped(run.columns.problems, "nothing was taken in: the columns cannot be told")
    if run.settled_problems:
        return run.stopped(run.settled_problems, f"nothing was taken in: mend {folder.as_posix()}/{PATH} first")
    if errors := _standing(checked, glazes=run.columns is not None and run.columns.kind == GLAZES):
        return run.stopped(errors, "nothing was taken in: mend what stands in the folder first", inside=True)
    return run.done()


def _standing(checked: Checked, *, glazes: bool) -> tuple[Problem, ...]:
    """Errors of the folder that keep it from being added to: those in what the new files are compared with."""
    asked = ("studio.yaml", "glazes") if glazes else _ASKED_OF_A_LOG
    errors = tuple(problem for problem in checked.problems if problem.is_error)
    return errors if checked.book is None else tuple(p for p in errors if p.place.path.startswith(asked))


def _within(file: Path, folder: Path) -> bool:
    return Path(os.path.realpath(file)).is_relative_to(os.path.realpath(folder))
