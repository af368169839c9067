"""The Markdown below an entry's fields, as clean HTML. Students write it, so nothing in it is trusted.

Python-Markdown makes HTML, nh3 keeps what an allow-list names, and what is left is fitted into a page: headings a level
or two down (a page has one main heading of its own), links and pictures led to the pages and pictures of this edition.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import partial
from html import unescape

import nh3
from markdown import Markdown
from markupsafe import Markup, escape

from combobook.book import Link
from combobook.entries import Body
from combobook.kept import Kept
from combobook.pictures import Picture
from combobook.wording import Words, picture_note

TAGS = frozenset(
    {
        "a", "abbr", "b", "blockquote", "br", "code", "dd", "del", "div", "dl", "dt", "em", "h1", "h2", "h3", "h4",
        "h5", "h6", "hr", "i", "img", "kbd", "li", "ol", "p", "pre", "s", "small", "span", "strong", "sub",
        "sup", "table", "tbody", "td", "tfoot", "th", "thead", "tr", "ul",
    }
)  # fmt: skip
ATTRIBUTES: Mapping[str, frozenset[str]] = {
    "a": frozenset({"href"}),
    "img": frozenset({"src", "alt"}),
    "ol": frozenset({"start"}),
    "td": frozenset({"colspan", "rowspan"}),
    "th": frozenset({"colspan", "rowspan", "scope"}),
}
_OUTSIDE = ("http://", "https://", "mailto:")
_ATTRIBUTE = re.compile(r'\s([\w-]+)="([^"]*)"')
_IMG = re.compile(r'<img((?:\s[\w-]+="[^"]*")*)\s*/?>')
_HEADING = re.compile(r"<(/?)h([1-6])>")


_KEPT: Kept[Markup] = Kept()


class Prose:
    """One Markdown reader and one cleaner for all bodies of an edition. What one says never shows in another."""

    def __init__(
        self,
        links: Mapping[tuple[str, str], Link],
        pictures: Mapping[str, Picture],
        captions: Mapping[str, str],
        words: Words,
    ) -> None:
        """`captions` says which tile a picture shows, by file name, where a log row names it."""
        self._links, self._pictures, self._captions, self._words = links, pictures, captions, words
        self._leads_to: dict[str, list[tuple[str, Link, Picture | None, str | None]]] = {}
        for (path, written), link in links.items():
            shown = (pictures.get(link.id), captions.get(link.id)) if link.kind == "photos" else (None, None)
            self._leads_to.setdefault(path, []).append((written, link, *shown))
        self._markdown = Markdown(extensions=["tables", "sane_lists"], output_format="html")
        self._path, self._root = "", ""
        self._cleaner = nh3.Cleaner(
            tags=set(TAGS),
            attributes={tag: set(names) for tag, names in ATTRIBUTES.items()},
            attribute_filter=self._attribute,
            url_schemes={"http", "https", "mailto"},
            link_rel="noopener noreferrer",
        )

    def __call__(self, body: Body, root: str, under: int = 1) -> Markup:
        """The body's HTML for a page whose site root is `root`; its own headings stand below level `under`.

        Empty where there is no text. Never raises for what is in it.
        """
        if not body.text.strip():
            return Markup("")
        given = (body.text, self._leads_to.get(body.path), self._words)
        return _KEPT((body.path, root, under), given, partial(self._set, body, root, under))

    def _set(self, body: Body, root: str, under: int) -> Markup:
        self._path, self._root = body.path, root
        self._markdown.reset()
        try:
            made = self._markdown.convert(body.text)
        except RecursionError:  # Thousands of nested quotes: shown as they were typed.
            made = f"<pre>{escape(body.text)}</pre>"
        html = self._cleaner.clean(made)
        html = _HEADING.sub(lambda m: f"<{m[1]}h{min(6, int(m[2]) + under)}>", _levels(html))
        html = _IMG.sub(self._image, html)
        label = escape(self._words("site.prose.table"))
        html = html.replace("<table>", f'<div class="scroll" role="region" tabindex="0" aria-label="{label}"><table>')
        return Markup(html.replace("</table>", "</table></div>"))

    def _attribute(self, tag: str, name: str, value: str) -> str | None:
        """An attribute as it may stand on a page, or None to leave it out."""
        if (tag, name) == ("img", "src"):
            link = self._links.get((self._path, value))
            return link.id if link is not None and link.kind == "photos" and link.id in self._pictures else None
        if name != "href":  # nh3 sets `rel` itself: an author's is not on the list.
            return value if name in ("alt", "rel") or value.isalnum() else None
        link = self._links.get((self._path, value))
        if link is not None:
            return self._target(link)
        return value if value.strip().lower().startswith(_OUTSIDE) else None

    def _target(self, link: Link) -> str | None:
        if link.kind == "photos":
            picture = self._pictures.get(link.id)
            return f"{self._root}{picture.page.path}" if picture is not None else None
        if link.kind == "forms":
            return f"{self._root}forms.html#{link.id}"
        return f"{self._root}{link.kind}/{link.id}.html"

    def _image(self, match: re.Match[str]) -> str:
        """A cleaned `<img>` with the edition's own file, its size, and its caption; without a picture, its words."""
        given: dict[str, str] = dict(_ATTRIBUTE.findall(match[1]))
        picture = self._pictures.get(unescape(given.get("src", "")))
        if picture is None:
            return given.get("alt", "")
        note = picture_note(picture, self._words)
        caption = self._captions.get(picture.name, f"{self._words('picture.no_tile')} {note}")
        file, small = picture.card, picture.webp.get("card")
        source = f'<source type="image/webp" srcset="{self._root}{escape(small.path)}">' if small is not None else ""
        return (
            f'<span class="picture"><picture>{source}<img src="{self._root}{escape(file.path)}" width="{file.width}" '
            f'height="{file.height}" alt="{given.get("alt", "")}" loading="lazy"></picture>'
            f'<span class="caption">{escape(caption)}</span></span>'
        )


def _levels(html: str) -> str:
    """The same with its headings moved up together, so that the first level used is 1 and none is skipped."""
    used = sorted({int(m[2]) for m in _HEADING.finditer(html)})
    return _HEADING.sub(lambda m: f"<{m[1]}h{used.index(int(m[2])) + 1}>", html)
