"""Sheets: HTML and a theme's style made into a tagged PDF, with nothing but the bytes handed in."""

from __future__ import annotations

import atexit
import gc
import logging
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from combobook.problems import Place, Problem, Severity
from combobook.render.drawn_once import draw_once
from combobook.render.finish import finish
from combobook.render.letters import FACES, FAMILY, font_file
from combobook.render.marks import MARKS, mark
from combobook.render.page_numbers import fill_in
from combobook.render.sheet_html import document_of
from combobook.render.written import written_here
from combobook.theme import Theme

if TYPE_CHECKING:
    from jinja2 import Environment
    from weasyprint import CSS
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher

_BASE = "http://sheet.invalid/"
"""Never asked: our fetcher answers for it, so that sheets come out alike in every folder and on every machine."""
INK, PAPER = "#1f1d1a", "#ffffff"


def filled(theme: Theme, template: str, **views: object) -> str:
    """A template of the theme, filled with finished views."""
    return _templates(theme.folders).get_template(template).render(**views)


@cache
def _templates(folders: tuple[Path, ...]) -> Environment:
    """A theme's templates: each is read and compiled once, as sheets share most of them, and again if it changed."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    return Environment(
        loader=FileSystemLoader([folder / "templates" for folder in folders]),
        undefined=StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def sheet(
    html: str, *, theme: Theme, style: tuple[str, ...], files: Mapping[str, bytes], path: str,
    pages: dict[str, int] | None = None, then: Callable[[Any], None] | None = None, xml: bool = False,
) -> tuple[bytes, tuple[Problem, ...]]:  # fmt: skip
    """The PDF of a document (PDF/UA-1), and whatever WeasyPrint had to say about it as problems at `path`.

    `style` names style sheets under the theme's style/, in order; `files` are the pictures by the names the HTML uses.
    The fonts (`fonts/…`) and marks (`marks/ink/…`, `marks/paper/…`) are there already; nothing else can be reached.
    `pages`, where given, is filled with the page of each anchor, counted from 1, and so are the document's references
    (see `page_numbers`). `then`, where given, is handed WeasyPrint's PDF objects right before they become bytes.
    `xml` says that the HTML is well-formed XML too, drawings with their namespace, and so read sooner.
    """
    with _heard() as said, _collector_off():
        pdf = _pdf(html, theme, style, files, pages, then, xml)
    problems = tuple(
        Problem(
            place=Place(path=path, line=1),
            severity=Severity.WARNING,
            code="sheet",
            message=f"the sheet was not made as it was meant: {message}",
            help="this is a fault of the theme or of the program, not of your entries: please report it",
        )
        for message in dict.fromkeys(said)
    )
    return pdf, problems


def _pdf(
    html: str, theme: Theme, style: tuple[str, ...], files: Mapping[str, bytes],
    pages: dict[str, int] | None, then: Callable[[Any], None] | None, xml: bool,
) -> bytes:  # fmt: skip
    """The bytes. The layout ends with this function: a collector that runs later need not walk through it."""
    css, fonts = _style_sheet(tuple(theme.file(f"style/{name}") for name in style))
    source = document_of(html, _BASE, _fetcher(files), xml=xml)
    document = source.render(stylesheets=[css], font_config=fonts, pdf_variant="pdf/ua-1")
    if pages is not None:
        pages.update(fill_in(document))
    draw_once(document)
    with written_here():
        pdf = document.write_pdf(finisher=_finisher(then), pdf_variant="pdf/ua-1")
    assert isinstance(pdf, bytes)
    return pdf


def _finisher(then: Callable[[Any], None] | None) -> Callable[[Any, Any], None]:
    def finished(document: Any, pdf: Any) -> None:
        finish(document, pdf)
        if then is not None:
            then(pdf)

    return finished


def mark_files() -> dict[str, bytes]:
    """Every mark as an SVG picture, in ink and in paper. As a background it is decoration beside its words."""
    files = {}
    for name in MARKS:
        for colour, value in (("ink", INK), ("paper", PAPER)):
            svg = str(mark(name)).replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)
            files[f"marks/{colour}/{name}.svg"] = svg.replace("currentColor", value).encode()
    return files


@cache
def _standing_files() -> dict[str, bytes]:
    return {**{f"fonts/{name}": font_file(weight) for weight, name in FACES.items()}, **mark_files()}


_TYPES = {".ttf": "font/ttf", ".svg": "image/svg+xml", ".jpg": "image/jpeg", ".jpeg": "image/jpeg"}


def _fetcher(files: Mapping[str, bytes]) -> URLFetcher:
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    class Handed(URLFetcher):  # type: ignore[misc]
        """Gives the bytes we were handed, and nothing else: neither disk nor network."""

        def fetch(self, url: str, headers: Any = None) -> URLFetcherResponse:
            name = url.removeprefix(_BASE)
            data = files.get(name) or _standing_files().get(name)
            if data is None:
                raise ValueError(f"no file {name} was handed to the sheet")
            kind = _TYPES.get(Path(name).suffix, "application/octet-stream")
            return URLFetcherResponse(url, data, {"Content-Type": kind})

    return Handed()


@cache
def _style_sheet(parts: tuple[Path, ...]) -> tuple[CSS, FontConfiguration]:
    """A theme's style sheets as one, parsed once a process, with the faces it is set in."""
    # Imported here: it takes 0.4 s, and only sheets need it.
    from weasyprint import CSS
    from weasyprint.text.fonts import FontConfiguration

    fonts = FontConfiguration()
    faces = "".join(
        f"@font-face{{font-family:'{FAMILY}';src:url(fonts/{name});font-weight:{weight}}}\n"
        for weight, name in FACES.items()
        for weight in (("700" if weight == "bold" else "400"),)
    )
    text = faces + "".join(part.read_text(encoding="utf-8") for part in parts)
    return CSS(string=text, base_url=_BASE, url_fetcher=_fetcher({}), font_config=fonts), fonts


# WeasyPrint's font configurations tidy up after themselves, which they cannot once the interpreter is half gone.
atexit.register(_style_sheet.cache_clear)


@contextmanager
def _heard() -> Iterator[list[str]]:
    """Collects what WeasyPrint and the libraries under it log as a warning or worse, instead of printing it."""
    said: list[str] = []

    class Ear(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            said.append(record.getMessage())

    ear = Ear(logging.WARNING)
    loggers = [logging.getLogger(name) for name in ("weasyprint", "fontTools")]
    before = [(logger.propagate, list(logger.handlers)) for logger in loggers]
    for logger in loggers:
        logger.handlers, logger.propagate = [ear], False
    try:
        yield said
    finally:
        for logger, (propagate, handlers) in zip(loggers, before, strict=True):
            logger.handlers, logger.propagate = handlers, propagate


@contextmanager
def _collector_off() -> Iterator[None]:
    """Without the garbage collector a sheet takes a quarter less time; its memory is freed right after."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
