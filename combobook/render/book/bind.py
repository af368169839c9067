"""From a volume's HTML to its PDF and the page of every entry; several volumes on all cores."""

from __future__ import annotations

import multiprocessing
import os
from collections.abc import Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass

from combobook.problems import Problem
from combobook.render.book.pages import key_files
from combobook.render.book.views import Files
from combobook.render.sheet import sheet
from combobook.theme import Theme

STYLES = ("print-sheet.css", "book.css")


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A document to be made; all of it can go to another process."""

    html: str
    theme: Theme
    files: Files
    path: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """A finished document."""

    pdf: bytes
    problems: tuple[Problem, ...]
    pages: Mapping[str, int]
    """By anchor, counted from 1."""


def bind(job: Job) -> Bound:
    """The PDF of one document."""
    pages: dict[str, int] = {}
    files = {**job.files.data(), **key_files()}
    pdf, problems = sheet(job.html, theme=job.theme, style=STYLES, files=files, path=job.path, pages=pages, xml=True)
    return Bound(pdf=pdf, problems=problems, pages=pages)


def bind_all(jobs: Sequence[Job]) -> tuple[Bound, ...]:
    """Each job's document, in order, made side by side in processes of their own: threads would share one core."""
    cores = min(len(jobs), os.cpu_count() or 1)
    if cores < 2:
        return tuple(bind(job) for job in jobs)
    fresh = multiprocessing.get_context("spawn")  # A fork would copy whatever our threads were about.
    with ProcessPoolExecutor(cores, mp_context=fresh) as workers:
        return tuple(workers.map(bind, jobs))
