"""Look over a finished edition before it is put in place: dead links, missing words, two files at one path.

A fault found here is ours, not the author's, and stops the edition all the same: a page nobody can follow is no page.
"""

from __future__ import annotations

import posixpath
import re
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from functools import partial
from hashlib import sha256
from io import BytesIO
from typing import TYPE_CHECKING, Any
from urllib.parse import unquote

from combobook.kept import Kept
from combobook.markup import Markup, Reference, css_references, read_markup
from combobook.problems import Place, Problem, Severity, in_order

if TYPE_CHECKING:
    from pypdf import PdfReader

_SCHEME = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:")
_OPENS_ELSEWHERE = ("http:", "https:", "mailto:", "tel:")
_SVG_ID = re.compile(r"""\sid\s*=\s*["']([^"']+)["']""")
# How Python prints what no template meant to show.
_MACHINE_WORDS = re.compile(r"&lt;[\w.]+: &#39;|&lt;[\w. ]+ at 0x|Unknown\.NOT_KNOWN|Fraction\(\d|Written\(value=")
_PAGE = re.compile(rb"/Type\s*/Page\b")
_HELP = "this is a fault of the program or the theme, not of the content: please report it"


def check_output(files: Mapping[str, bytes]) -> tuple[Problem, ...]:
    """Every fault of an edition's files, in order; places are paths, lines and columns in the output.

    One dead link is reported once, at its first page, however many pages repeat it.
    """
    texts = {path: data.decode("utf-8", "replace") for path, data in files.items() if path.endswith((".html", ".css"))}
    read = {path: _looked_over(path, text) for path, text in texts.items() if path.endswith(".html")}
    pages = {path: page for path, (page, _) in read.items()}
    found = [*_two_at_one_path(files), *_empty(files), *_sheets(files)]
    found += (fault for _, faults in read.values() for fault in faults)
    references = {path: page.references for path, page in pages.items()}
    references |= {path: tuple(css_references(text)) for path, text in texts.items() if path.endswith(".css")}
    found += _links(files, texts, pages, references)
    return in_order(found)


_READ: Kept[tuple[Markup, tuple[Problem, ...]]] = Kept()
"""Of each page that this process looked over, by its path; its text's digest takes less room than the text."""


def _looked_over(path: str, text: str) -> tuple[Markup, tuple[Problem, ...]]:
    """What a page says, and what is wrong on the page itself; one that stood just so before is not read again."""
    return _READ(path, (sha256(text.encode()).digest(),), partial(_read, path, text))


def _read(path: str, text: str) -> tuple[Markup, tuple[Problem, ...]]:
    page = read_markup(text)
    return page, tuple(_faults(path, text, page))


def _faults(path: str, text: str, page: Markup) -> Iterator[Problem]:
    for rule in (_language, _title, _one_heading, _ids_once, _wordless):
        yield from rule(path, text, page)
    yield from _machine_words(path, text)


def _language(path: str, text: str, page: Markup) -> Iterator[Problem]:
    if not page.language:
        yield _fault(path, text, 0, "page-without-language", "the page does not say its language")


def _title(path: str, text: str, page: Markup) -> Iterator[Problem]:
    if not page.title:
        yield _fault(path, text, 0, "page-without-title", "the page has no title")


def _one_heading(path: str, text: str, page: Markup) -> Iterator[Problem]:
    if len(page.headings) != 1:
        at = page.headings[1] if page.headings else 0
        message = f"expected one main heading (h1) on the page, got {len(page.headings)}"
        yield _fault(path, text, at, "page-without-one-heading", message)


def _ids_once(path: str, text: str, page: Markup) -> Iterator[Problem]:
    seen: set[str] = set()
    for name, offset in page.ids:
        if name in seen:
            yield _fault(path, text, offset, "doubled-id", f"the id `{name}` stands on the page twice")
        seen.add(name)


def _wordless(path: str, text: str, page: Markup) -> Iterator[Problem]:
    what = {"a": "a link", "img": "a picture", "h1": "the main heading"}
    for tag, offset in page.wordless:
        yield _fault(path, text, offset, "missing-words", f"{what[tag]} has no words")


def _machine_words(path: str, text: str) -> Iterator[Problem]:
    if match := _MACHINE_WORDS.search(text):
        message = f"a value stands here as the program writes it: `{match[0]}`"
        yield _fault(path, text, match.start(), "missing-words", message)


def _two_at_one_path(files: Iterable[str]) -> Iterator[Problem]:
    """Windows and macOS take `A` and `a`, and two spellings of one accent, for the same file."""
    first: dict[str, str] = {}
    folders: dict[str, str] = {}
    for path in sorted(files):
        same = unicodedata.normalize("NFC", path).casefold()
        if same in first:
            message = f"on some machines this is the same file as {first[same]}"
            yield _fault(path, "", 0, "two-files-at-one-path", message)
        first.setdefault(same, path)
        while same := posixpath.dirname(same):
            folders.setdefault(same, path)
    for same in sorted(first.keys() & folders.keys()):
        message = f"a file stands where {folders[same]} needs a folder"
        yield _fault(first[same], "", 0, "two-files-at-one-path", message)


def _empty(files: Mapping[str, bytes]) -> Iterator[Problem]:
    for path, data in files.items():
        if not data:
            yield _fault(path, "", 0, "empty-file", "the file is empty")


def _sheets(files: Mapping[str, bytes]) -> Iterator[Problem]:
    for path, data in files.items():
        if data and path.endswith(".pdf") and not _has_pages(data):
            yield _fault(path, "", 0, "sheet-without-pages", "the file is no PDF with a page in it")


def _has_pages(data: bytes) -> bool:
    from pypdf import PdfReader  # Only where there are sheets: it takes as long to import as a whole `check`.
    from pypdf.errors import PyPdfError

    if not data.startswith(b"%PDF-"):
        return False
    try:
        reader = PdfReader(BytesIO(data))
        packed = sorted({stream for stream, _ in reader.xref_objStm.values()})
        # Asked for its pages, it reads every object that is packed with them: for a book, seconds.
        return any(_PAGE.search(some) for some in (data, *(_unpacked(reader, stream) for stream in packed)))
    except (PyPdfError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return False


def _unpacked(reader: PdfReader, stream: int) -> bytes:
    found: Any = reader.get_object(stream)
    unpacked: bytes = found.get_data()
    return unpacked


def _links(
    files: Mapping[str, bytes],
    texts: Mapping[str, str],
    pages: Mapping[str, Markup],
    references: Mapping[str, tuple[Reference, ...]],
) -> Iterator[Problem]:
    names = {path: {name for name, _ in page.ids} for path, page in pages.items()}
    for path in files:
        if path.endswith(".svg"):
            names[path] = set(_SVG_ID.findall(files[path].decode("utf-8", "replace")))
    # Every page repeats the same ways about: each is followed once per folder, or per page where it stays on it.
    known: dict[tuple[str, str, bool], str] = {}
    dead: dict[tuple[str, str], list[tuple[str, Reference]]] = {}
    for path in sorted(references):
        folder = posixpath.dirname(path)
        for reference in references[path]:
            start = path if reference.target.startswith(("#", "?")) else folder
            key = (start, reference.target, reference.loads)
            if key not in known:
                known[key] = _why_dead(path, reference, files, names)
            if known[key]:
                target = _target(path, reference.target)
                dead.setdefault((target, known[key]), []).append((path, reference))
    for (_, why), places in dead.items():
        path, reference = places[0]
        others = len({page for page, _ in places}) - 1
        also = f" (and on {others} more page{'s' if others > 1 else ''})" if others else ""
        code = "loads-from-elsewhere" if why.startswith("loads") else "dead-link"
        yield _fault(path, texts[path], reference.offset, code, f"`{reference.target}` {why}{also}")


def _why_dead(path: str, reference: Reference, files: Mapping[str, bytes], names: Mapping[str, set[str]]) -> str:
    """Why this cannot be followed from `path`; empty where it can."""
    target = reference.target
    if scheme := _SCHEME.match(target):
        if reference.loads:
            own = scheme[0].lower() == "data:"
            return "" if own else "loads from elsewhere: a page needs nothing but its own files"
        return "" if scheme[0].lower() in _OPENS_ELSEWHERE else "is no link that a page may have"
    if target.startswith(("/", "\\")):
        return "begins at the top of a machine, not at this page"
    if not target:
        return "leads nowhere: the link is empty"
    there, _, fragment = target.partition("#")
    goal = _target(path, there)
    if goal not in files:
        return "leads to a file that is not in this edition"
    choices = "=" in fragment  # What a page's script is asked to show (`pair.html#first=…`) is no place on it.
    if fragment and goal in names and unquote(fragment) not in names[goal] and fragment != "top" and not choices:
        return f"leads to a place that {goal} does not have"
    return ""


def _target(path: str, target: str) -> str:
    """The output path that `target` means on the page at `path`; the page itself for a bare fragment."""
    if _SCHEME.match(target):
        return target
    there, hash_, fragment = target.partition("#")
    there = unquote(there.partition("?")[0])
    goal = posixpath.normpath(posixpath.join(posixpath.dirname(path), there)) if there else path
    return goal + hash_ + fragment


def _fault(path: str, text: str, offset: int, code: str, message: str) -> Problem:
    before = text[:offset]
    place = Place(path=path, line=before.count("\n") + 1, column=offset - (before.rfind("\n") + 1) + 1)
    return Problem(place=place, severity=Severity.ERROR, code=code, message=message, help=_HELP)
