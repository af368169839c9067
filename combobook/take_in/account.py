"""What a take-in came to, in a few lines, and what to do next."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from combobook.problems import Problem
from combobook.take_in.photos import Photos


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenIn:
    """Counts and places, all paths as people are to read them."""

    problems: tuple[Problem, ...] = ()
    """Doubtful rows' reasons, and what else is to be known: warnings, unless `stopped`."""
    lines: Mapping[str, Sequence[str]] = field(default_factory=dict)
    stopped: str = ""
    """Why nothing was written; empty where the file was read."""
    resumed: bool = False
    """An earlier take-in had been interrupted, and was finished first."""
    file: str = ""
    folder: str = ""
    what: str = "rows"
    taken: int = 0
    """Rows, or glazes."""
    log: str = ""
    known: int = 0
    doubtful: int = 0
    doubtful_file: str = ""
    entries: int = 0
    glazes: tuple[str, ...] = ()
    """`Name (MK)` of glazes whose mark was made here."""
    respelt: tuple[tuple[str, str], ...] = ()
    misread: Mapping[tuple[str, str], int] = field(default_factory=dict)
    columns: str = ""
    """columns.yaml, where it was written."""
    columns_to_add: tuple[tuple[str, str], ...] = ()
    """Headings that could not be kept there by the program."""
    photos: Photos | None = None
    photo_rows: int = 0
    sheet: str = ""


def account(done: TakenIn) -> str:
    """The report."""
    lines = ["An earlier take-in had been stopped midway; it is finished now."] if done.resumed else []
    if done.file:
        lines += [f"{done.file}:", *_of_rows(done)]
    if done.photos is not None:
        lines += ["photographs:", *_of_photos(done, done.photos)]
    return "\n".join([*lines, *_to_settle(done), _next(done)])


def _of_rows(done: TakenIn) -> list[str]:
    into = f", in {done.log}" if done.log else ""
    lines = [_line("taken in", f"{_count(done.taken, done.what)}{into}"), _line("already there", str(done.known))]
    where = f", in {done.doubtful_file}, each with its reason" if done.doubtful_file else ""
    lines.append(_line("doubtful", f"{done.doubtful}{where}"))
    if done.what == "rows":
        note = ", each with `on chart: no` and what is left to fill in" if done.entries else ""
        lines.append(_line("entries written", f"{done.entries}{note}"))
    if done.glazes:
        lines.append(_line("marks made", f"{', '.join(done.glazes)}: write them on the lids, or mend them now"))
    if done.respelt:
        lines.append(_line("one tile", ", ".join(f"{written} is read as {read}" for written, read in done.respelt)))
    if done.columns:
        lines.append(_line("headings", f"as they were read, kept in {done.columns}"))
    return lines


def _of_photos(done: TakenIn, photos: Photos) -> list[str]:
    how = f" ({photos.by_tag} told by tag, {photos.by_name} by name)" if photos.by_tag or photos.by_name else ""
    lines = [_line("copied", f"{len(photos.copies)}, nothing in them but the picture{how}")]
    if done.photo_rows and not done.file:
        lines.append(_line("rows", f"{done.photo_rows}, in {done.log}"))
    lines.append(_line("already there", str(photos.known)))
    where = f", see {done.sheet}" if done.sheet else ""
    lines.append(_line("nobody's", f"{len(photos.unmatched)}{where}"))
    lines += [f"    {'':17}{each.name}: {each.why}" for each in photos.unmatched]
    lines += [_line("not shown", f"photos/{file}: tile {mark} shows another picture") for file, mark in photos.beside]
    return lines


def _to_settle(done: TakenIn) -> list[str]:
    path = f"{done.folder}/logs/columns.yaml"
    lines = []
    if done.misread:
        lines += [f"To settle a spelling once and for all, write into {path}, then take the file in again:", "read as:"]
        lines += [f"  {word}: {meant}    # {_count(n, 'rows')}" for (word, meant), n in done.misread.items()]
    if done.columns_to_add:
        lines += [f"To keep how the headings were read, write into {path}:"]
        lines += [f"  {heading!r}: {column}" for heading, column in done.columns_to_add]
    return lines


def _next(done: TakenIn) -> str:
    steps = []
    if done.doubtful_file:
        steps.append(f"mend the rows in {done.doubtful_file} and take that file in")
    if done.entries or (done.taken and done.what == "glazes"):
        steps.append("fill in what has a `?` in the new entries")
    if done.photos and done.photos.copies:
        steps.append("look over the new pictures in photos/: no face, name or place in any")
    steps.append(f"combobook check {done.folder}")
    return f"Next: {'; '.join(steps)}."


def _line(name: str, said: str) -> str:
    return f"    {name:<17}{said}"


def _count(number: int, what: str) -> str:
    return f"{number} {what[:-1] if number == 1 else what}"
