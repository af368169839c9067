"""What a finished page says to a browser: its tags, ids, links and words, found in one quick sweep. Leaf module.

For pages that we made ourselves (templates and cleaned Markdown: every tag closed, no stray `<`), where the standard
library's parser would take longer than making the page did; a test holds the two against each other.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from html import unescape
from typing import NamedTuple

_ATTRIBUTES = r"""((?:\s+[^\s=>/"']+(?:\s*=\s*(?:"[^"]*"|'[^']*'|[^\s>"']+))?)*)\s*/?>"""
_TAG = re.compile(
    rf"<!--.*?-->|<(script|style|title|textarea){_ATTRIBUTES}(.*?)</\1\s*>|<([a-z][^\s/>]*){_ATTRIBUTES}",
    re.DOTALL | re.IGNORECASE,
)
_ATTRIBUTE = re.compile(r"""([^\s=>/"']+)(?:\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s>"']+)))?""")
_ANY_TAG = re.compile(r"<[^>]*>")
_SPEAKS = re.compile(r"""<(?:img|svg)\b[^>]*\b(?:alt|aria-label)\s*=\s*["']\s*[^"'\s]|<title>\s*[^<\s]""")
_CSS_URL = re.compile(r"""url\(\s*(?:"([^"]*)"|'([^']*)'|([^)"'\s]*))\s*\)|@import\s+(?:"([^"]*)"|'([^']*)')""")
_CSS_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)


class Reference(NamedTuple):
    """Something a page or style sheet points to. `loads`: a browser fetches it unasked; else a person follows it."""

    target: str
    loads: bool
    offset: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Markup:
    """Of one page; offsets are into its text."""

    language: str
    title: str
    headings: tuple[int, ...]
    """Where each h1 begins."""
    ids: tuple[tuple[str, int], ...]
    references: tuple[Reference, ...]
    wordless: tuple[tuple[str, int], ...]
    """A link, picture or h1 that has no words for who cannot see it: which tag, and where."""


class _Sweep:
    """What has been found so far on the way through a page."""

    def __init__(self) -> None:
        self.language = self.title = ""
        self.headings: list[int] = []
        self.ids: list[tuple[str, int]] = []
        self.references: list[Reference] = []
        self.wordless: list[tuple[str, int]] = []

    def ended(self) -> Markup:
        return Markup(
            language=self.language,
            title=self.title,
            headings=tuple(self.headings),
            ids=tuple(self.ids),
            references=tuple(self.references),
            wordless=tuple(self.wordless),
        )


def read_markup(text: str) -> Markup:
    """Everything that `check the output` asks of a page."""
    sweep = _Sweep()
    in_head = True
    for match in _TAG.finditer(text):
        raw, raw_attributes, content, plain, plain_attributes = match.groups()
        tag = (raw or plain or "").lower()
        if not tag:
            continue
        if tag == "body":
            in_head = False
        elif tag == "title" and in_head and not sweep.title:
            sweep.title = unescape(content).strip()
        elif tag == "style":
            sweep.references += css_references(content, match.start())
        _note(sweep, text, match, tag, raw_attributes or plain_attributes or "")
    return sweep.ended()


def css_references(style: str, offset: int = 0) -> list[Reference]:
    """What a style sheet loads; `offset` is that of its first character in the file it stands in."""
    style = _CSS_COMMENT.sub(lambda comment: " " * len(comment[0]), style)
    return [
        Reference(next((g for g in match.groups() if g), ""), True, offset + match.start())
        for match in _CSS_URL.finditer(style)
    ]


def _note(sweep: _Sweep, text: str, match: re.Match[str], tag: str, attributes: str) -> None:
    name, language, speaks, targets = _asked_of(tag, attributes)
    start, end = match.span()
    if tag == "html":
        sweep.language = language
    elif tag == "h1":
        sweep.headings.append(start)
    if name is not None:
        sweep.ids.append((name, start))
    if not speaks and (tag == "img" or not _has_words(text, end, f"</{tag}")):
        sweep.wordless.append((tag, start))
    for target, loads in targets:
        sweep.references.append(Reference(target, loads, start))


@lru_cache(maxsize=1 << 16)
def _asked_of(tag: str, text: str) -> tuple[str | None, str, bool, tuple[tuple[str, bool], ...]]:
    """Of one tag: its id, its language, whether it needs no words within, and what it points to.

    Kept from tag to tag and page to page: most of what a page says to a browser other pages have said before.
    """
    attributes = {
        m[1].lower(): unescape(value) if "&" in (value := m[2] or m[3] or m[4] or "") else value
        for m in _ATTRIBUTE.finditer(text)
    }
    speaks = True
    if tag == "img":
        speaks = "alt" in attributes
    elif tag == "h1" or (tag == "a" and "href" in attributes):
        speaks = bool(attributes.get("aria-label"))
    return attributes.get("id"), attributes.get("lang", "").strip(), speaks, tuple(_targets(tag, attributes))


def _targets(tag: str, attributes: Mapping[str, str]) -> Iterator[tuple[str, bool]]:
    for name in ("src", "href", "xlink:href", "poster", "data", "action", "formaction"):
        if name in attributes and (name != "data" or tag == "object"):
            followed = tag in ("a", "area") or (tag == "link" and attributes.get("rel") == "canonical")
            yield attributes[name].strip(), not followed
    for name in ("srcset", "imagesrcset"):
        for candidate in attributes.get(name, "").split(","):
            if candidate.strip():
                yield candidate.split()[0], True
    if "url(" in attributes.get("style", ""):
        yield from ((reference.target, True) for reference in css_references(attributes["style"]))


def _has_words(text: str, start: int, closing: str) -> bool:
    inner = text[start : text.find(closing, start)]
    if inner[:1].isalnum():
        return True
    return bool(_ANY_TAG.sub("", inner).strip()) or _SPEAKS.search(inner) is not None
