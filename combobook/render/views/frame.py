"""What every page has: header, ways about, footer. Worked out once for an edition; only the way to site/ differs."""

from __future__ import annotations

from dataclasses import dataclass

from combobook.edition import Edition
from combobook.entries import NOT_KNOWN
from combobook.render.views.numbers import is_numbered
from combobook.render.views.page import Page

NAV: tuple[tuple[str, str], ...] = (
    ("home", "index.html"),
    ("glazes", "index.html#shelf"),
    ("find", "find.html"),
    ("grid", "grid.html"),
    ("questions", "questions.html"),
    ("forms", "forms.html"),
    ("clays", "clays.html"),
    ("firings", "firings.html"),
    ("teacher", "teacher.html"),
    ("cautions", "index.html#cautions"),
)
"""Ways about in the header: name (words at `site.nav.<name>`) and page, relative to site/."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NavItem:
    """One way in the header. `current` is `page` on the page itself, `true` on a page that stands under it."""

    href: str
    words: str
    current: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Common:
    """Header and footer of every page."""

    language: str
    studio: str
    edition: str
    """`Autumn 2026, 12 October 2026`, or the name alone where no date is known."""
    skip: str
    nav_label: str
    replaces: str
    caution: str
    caution_link: str
    numbers: str
    """The link to the page of numbers; empty where sheets carry none."""


def common(edition: Edition) -> Common:
    """What all pages of this edition share."""
    studio, words = edition.book.studio, edition.words
    name = words("site.edition", edition=studio.edition.value)
    dated = studio.date.value is not NOT_KNOWN
    return Common(
        language=words("language"),
        studio=studio.name.value,
        edition=f"{name}, {words.date(studio.date.value)}" if dated else name,
        skip=words("site.skip"),
        nav_label=words("site.nav.label"),
        replaces=words("edition.replaces"),
        caution=words("site.caution"),
        caution_link=words("site.caution_link"),
        numbers=words("site.numbers.title") if is_numbered(edition) else "",
    )


def nav(edition: Edition, page: Page) -> tuple[NavItem, ...]:
    """The header's links as they stand on this page; only what the edition has."""
    return tuple(
        NavItem(
            href=f"{page.root}{href}",
            words=edition.words(f"site.nav.{name}"),
            current="" if name != page.nav else "page" if href == page.path else "true",
        )
        for name, href in NAV
    )
