"""Links and pictures in the Markdown of entries: what each names, with its place."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterator, Mapping
from urllib.parse import unquote

from combobook.book import Combination, Link
from combobook.entries import Body
from combobook.link.combinations import Linking
from combobook.link.names import error
from combobook.problems import Place
from combobook.spelling import did_you_mean

_INLINE = re.compile(
    r"!?\[(?:[^\[\]\\]|\\.|\[[^\]]*\])*\]\(\s*<?([^\s()<>]+(?:\([^\s()<>]*\)[^\s()<>]*)*)>?(?:\s+[\"'(][^)]*)?\)"
)
_DEFINED = re.compile(r"^ {0,3}\[[^\]]+\]:\s*<?([^\s<>]+)>?", re.MULTILINE)
_CODE = re.compile(r"^(```|~~~).*?(?:^\1|\Z)|(`+)(?!`).*?\2", re.DOTALL | re.MULTILINE)
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
    """Every link target of a body, with its place; code is passed over."""
    text = (
        _CODE.sub(lambda m: re.sub(r"[^\n]", " ", m[0]), body.text)
        if "`" in body.text or "~~~" in body.text
        else body.text
    )
    for pattern in (_INLINE, _DEFINED) if "[" in text else ():
        for match in pattern.finditer(text):
            start = match.start(1)
            line, before = text.count("\n", 0, start), text.rfind("\n", 0, start)
            yield match[1], Place(path=body.path, line=body.line + line, column=start - before)


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
    known["combinations"] = {posixpath.basename(c.path).removesuffix(".md"): c.id for c in combinations.values()}
    known["photos"] = {name: name for name in link.photos}
    return known


def _named(link: Linking, path: str, target: str, place: Place, known: Mapping[str, Mapping[str, str]]) -> Link | None:
    if target.startswith("#"):
        return None
    scheme = _SCHEME.match(target)
    if scheme or target.startswith("//"):
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
            return Link(kind=folder, id=known[folder][stem], fragment=fragment)
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
    fix = near or f"link to a file of the folder, for example (../{folder}/{next(iter(known[folder]), 'name')}{ending})"
    link.problems.append(
        error(place, f"unknown-{_KINDS[folder]}", f"the link `{target}` names no {_KINDS[folder]}", fix, len(target))
    )
