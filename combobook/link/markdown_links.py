"""Links and pictures in the Markdown of entries: what each names, with its place."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterator, Mapping
from html import unescape
from urllib.parse import unquote

from combobook.book import Combination, Link
from combobook.entries import Body
from combobook.link.combinations import Linking
from combobook.link.names import error
from combobook.problems import Place
from combobook.spelling import did_you_mean

_FENCE = re.compile(r" {0,3}(`{3,}(?=[^`]*$)|~{3,})")
_ITEM = re.compile(r" {0,3}(?:[-*+]|\d{1,9}[.)])(?:\s|$)")
_SPAN = re.compile(r"(?<![`\\])(`+)(?!`)(?:(?!\n[ \t]*\n)[\s\S])*?(?<!`)\1(?!`)")
_COMMENT = re.compile(r"<!--[\s\S]*?(?:-->|\Z)")
_BRACKET = re.compile(r"\\[\s\S]|\n[ \t]*\n|\[|\]\(?")
_DESTINATION = re.compile(
    r"\s{0,99}(?:<([^<>\n]{0,2000})>|((?:[^\s()<>\\]|\\.|\([^\s()]{0,500}\)|[ \t]{1,9}(?=[^\s\"'()<>])){0,2000}))"
    r"(?:\s{1,99}(?:\"[^\"]{0,500}\"|'[^']{0,500}'|\([^()]{0,500}\)))?\s{0,99}\)"
)
_DEFINED = re.compile(r"^ {0,3}\[[^\]\n]{1,500}\]:[ \t]{0,99}<?([^\s<>]{1,2000})>?", re.MULTILINE)
_TAG = re.compile(r"<(?:a|img)\s[^<>]{0,500}?\b(?:href|src)\s{0,9}=\s{0,9}[\"']([^\"'<>]{0,2000})[\"']", re.IGNORECASE)
_ANYTHING = re.compile(r"[^\n]")
_CONTROL = re.compile(r"[\x00-\x20]")
_SCHEME = re.compile(r"[a-z][a-z0-9+.-]*:", re.IGNORECASE)
_ALLOWED = ("http:", "https:", "mailto:")
_KINDS = {
    "glazes": "glaze", "combinations": "combination", "clays": "clay", "forms": "form", "firings": "firing",
    "pages": "page", "photos": "photo",
}  # fmt: skip


def links(link: Linking, combinations: Mapping[str, Combination]) -> dict[tuple[str, str], Link]:
    """(path, target as written) to what it names; a target that names nothing is an error there."""
    known = _known(link, combinations)
    found: dict[tuple[str, str], Link] = {}
    for body in _bodies(link):
        for target, place in targets(body):
            named = _named(link, body.path, target, place, known)
            if named is not None:
                found[(body.path, target)] = named
    return dict(sorted(found.items()))


def targets(body: Body) -> Iterator[tuple[str, Place]]:
    """Every link target of a body, in order, with its place; code and comments are passed over."""
    if "[" not in body.text and "<" not in body.text:
        return
    text = _without_code(body.text)
    found = [*_inline(text), *(m.span(1) for pattern in (_DEFINED, _TAG) for m in pattern.finditer(text))]
    line, counted = body.line, 0
    for start, end in sorted(found):
        line += text.count("\n", counted, start)
        counted = start
        yield text[start:end], Place(path=body.path, line=line, column=start - text.rfind("\n", 0, start))


def _inline(text: str) -> Iterator[tuple[int, int]]:
    """Where the targets of `[words](target)` begin and end: brackets are paired by hand, so that no text takes long."""
    opened = 0
    for match in _BRACKET.finditer(text):
        said = match[0]
        if said == "[":
            opened += 1
        elif said.startswith("\n"):
            opened = 0
        elif said.startswith("]") and opened:
            opened -= 1
            target = _DESTINATION.match(text, match.end()) if said == "](" else None
            if target is not None:
                yield target.span(1) if target[1] is not None else target.span(2)


def _without_code(text: str) -> str:
    """The same text, as long, with fenced, set-in and quoted code and comments blanked out."""
    lines = text.split("\n")
    fence, in_list, after_blank = "", False, True
    for number, line in enumerate(lines):
        opening = _FENCE.match(line)
        if fence or opening:
            lines[number] = " " * len(line)
            if opening is not None:
                fence = opening[1] if not fence else "" if opening[1].startswith(fence) else fence
        elif not line.strip():
            after_blank = True
        elif line.startswith(("    ", "\t")) and after_blank and not in_list:
            lines[number] = " " * len(line)
        else:
            in_list = _ITEM.match(line) is not None or (in_list and (not after_blank or line[0] in " \t"))
            after_blank = False
    text = "\n".join(lines)
    for pattern, sign in ((_SPAN, "`"), (_COMMENT, "<!--")):
        if sign in text:
            text = pattern.sub(lambda match: _ANYTHING.sub(" ", match[0]), text)
    return text


def _bodies(link: Linking) -> Iterator[Body]:
    e = link.entries
    for group in (e.glazes, e.combinations, e.clays, e.forms, e.firings, e.reports, e.pages):
        for entry in group:
            yield entry.body


def _known(link: Linking, combinations: Mapping[str, Combination]) -> dict[str, dict[str, str]]:
    """Kind to the stems that name an entry, each with its id (a combination's file may be called anything)."""
    e = link.entries
    known = {
        folder: {entry.id: entry.id for entry in entries}
        for folder, entries in (("glazes", e.glazes), ("clays", e.clays), ("forms", e.forms), ("firings", e.firings))
    }
    known["pages"] = {page.id: page.id for page in e.pages}
    # An entry that is left out has had its problem: a link to it names nothing, and is not reported again.
    known["combinations"] = {
        **{posixpath.basename(c.path).removesuffix(".md"): "" for c in e.combinations},
        **{c.id: c.id for c in combinations.values()},
        **{posixpath.basename(c.path).removesuffix(".md"): c.id for c in combinations.values()},
    }
    known["photos"] = {name: name for name in link.photos} | dict.fromkeys(link.withdrawn_photos, "")
    return known


def _named(link: Linking, path: str, target: str, place: Place, known: Mapping[str, Mapping[str, str]]) -> Link | None:
    if target.startswith("#"):
        return None
    scheme = _SCHEME.match(_CONTROL.sub("", unescape(target)))
    if scheme or not target or target.startswith(("//", "\\\\")):
        if scheme is None or scheme[0].lower() not in _ALLOWED:
            message = f"a link cannot go to `{target}`"
            fix = "link to an entry's file, or to an http(s) or mailto address"
            link.problems.append(error(place, "link-refused", message, fix, len(target)))
        return None
    file, _, fragment = unquote(target).partition("#")
    tried = [posixpath.normpath(posixpath.join(posixpath.dirname(path), file)), posixpath.normpath(file)]
    for candidate in tried:
        folder, _, name = candidate.partition("/")
        stem = name if folder == "photos" else name.removesuffix(".md")
        if folder in known and stem in known[folder] and (folder == "photos" or name.endswith(".md")):
            if folder == "photos":
                link.photos_named.add(stem)
            named = known[folder][stem]
            return Link(kind=folder, id=named, fragment=fragment) if named else None
    _unknown(link, target, place, tried, known)
    return None


def _unknown(
    link: Linking, target: str, place: Place, tried: list[str], known: Mapping[str, Mapping[str, str]]
) -> None:
    folder, name = next(
        ((f, n) for f, _, n in (t.partition("/") for t in tried) if f in _KINDS), ("pages", posixpath.basename(target))
    )
    stem = name.removesuffix(".md")
    if (folder, stem.casefold()) in link.entries.withheld:
        return
    near = did_you_mean(stem, known[folder])
    ending = "" if folder == "photos" else ".md"
    fix = (
        near or f"link to a file of the folder, for example (../{folder}/{min(known[folder], default='name')}{ending})"
    )
    link.problems.append(
        error(place, f"unknown-{_KINDS[folder]}", f"the link `{target}` names no {_KINDS[folder]}", fix, len(target))
    )
