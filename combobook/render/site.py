"""The site: every page set from its view, with the style, letters and pictures that it needs and no others."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from functools import partial
from importlib import resources

from jinja2 import BytecodeCache, Environment, FileSystemLoader, StrictUndefined
from jinja2.bccache import Bucket
from markupsafe import Markup

from combobook.edition import Edition
from combobook.kept import Kept
from combobook.problems import Problem
from combobook.render.pair_data import pairs_data
from combobook.render.search_data import layerings_data
from combobook.render.views import (
    changes,
    clays,
    colours,
    compare,
    contact,
    find,
    firings,
    forms,
    free,
    glaze,
    grid,
    index,
    layering,
    layerings,
    moved,
    numbers,
    pair,
    past,
    projector,
    questions,
    retest,
    teacher,
)
from combobook.render.views.desk import Desk, desk
from combobook.render.views.frame import Common, common, nav
from combobook.render.views.page import Page
from combobook.render.views.pieces import SmallCard, sprite
from combobook.theme import themes_folder

KINDS: tuple[Callable[[Desk], Iterator[Page]], ...] = (
    index.pages,
    glaze.pages,
    find.pages,
    pair.pages,
    layering.pages,
    layerings.pages,
    grid.pages,
    questions.pages,
    forms.pages,
    clays.pages,
    firings.pages,
    retest.pages,
    teacher.pages,
    contact.pages,
    compare.pages,
    projector.pages,
    colours.pages,
    numbers.pages,
    free.pages,
    changes.pages,
    past.pages,
    moved.pages,
)
"""Every kind of page, in the order in which they are set."""

DATA: tuple[Callable[[Desk], tuple[str, str]], ...] = (layerings_data, pairs_data, compare.tiles_data)
"""What the script looks up: each gives a path under site/ and the text of a data file."""

STYLES: tuple[str, ...] = (
    "tokens.css",
    "site.css",
    "pages.css",
    "find.css",
    "grid.css",
    "contact.css",
    "compare.css",
    "projector.css",
    "colours.css",
    "asking.css",
    "why.css",
    "print.css",
    "teacher.css",
    "editions.css",
)
SCRIPT = "script/combobook.js"
"""The one script, for the pages that ask for it; their data are scripts beside it."""
LETTERS: Mapping[str, str] = {
    "fonts/AtkinsonHyperlegible-Regular.ttf": "files/AtkinsonHyperlegible-Regular.ttf",
    "fonts/AtkinsonHyperlegible-Bold.ttf": "files/AtkinsonHyperlegible-Bold.ttf",
    "fonts/LICENSE.txt": "LICENSE",
}
"""Path under site/, and where the letters' package keeps it."""
_PICTURE = re.compile(r"pictures/[\w-]+\.(?:jpg|webp)")


def site(edition: Edition, *, again: bool = False) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """Every file of the site, by path under build/. Finds no problems: what is wrong was said before.

    `again` says that this process will be asked for the site again: pages are remembered, and one whose view is as it
    was is not set anew.
    """
    laid_out = desk(edition)
    pages = _pages(laid_out, _SET if again else Kept())
    found = dict(make(laid_out) for make in DATA)
    files = {f"site/{path}": text.encode() for path, text in pages.items()}
    files |= {f"site/style/{name}": edition.theme.text(f"style/{name}").encode() for name in STYLES}
    files["site/style/lamplight.css"] = (themes_folder() / "lamplight" / "style" / "tokens.css").read_bytes()
    files[f"site/{SCRIPT}"] = edition.theme.text(SCRIPT).encode()
    files |= {f"site/{path}": text.encode() for path, text in found.items()}
    letters = resources.files("fontpkg_atkinson_hyperlegible")
    files |= {f"site/{path}": (letters / inside).read_bytes() for path, inside in LETTERS.items()}
    files |= _pictures(edition, pages | found)
    return files, ()


_SET: Kept[str] = Kept()
_SETTING: Kept[object] = Kept()


def _pages(laid_out: Desk, already: Kept[str]) -> dict[str, str]:
    """Each page's HTML by its path under site/. Raises ValueError where two pages have one path."""
    edition = laid_out.edition
    setter, everywhere = environment(edition), common(edition)
    setting = _SETTING("setting", (everywhere, edition.words.units, _theme_texts(edition)), object)
    pages: dict[str, str] = {}
    for kind in KINDS:
        for page in kind(laid_out):
            if page.path in pages:
                raise ValueError(f"two pages are called {page.path}")
            given = (setting, page.template, page.title, page.nav, page.view)
            pages[page.path] = already(page.path, given, partial(_set, setter, everywhere, edition, page))
    return pages


def _set(setter: Environment, everywhere: Common, edition: Edition, page: Page) -> str:
    return setter.get_template(page.template).render(
        common=everywhere, nav=nav(edition, page), root=page.root, title=page.title, **page.view
    )


def _theme_texts(edition: Edition) -> tuple[str, ...]:
    """What the theme says and how it sets it: every template, every file of words."""
    kinds = [folder / kind for folder in edition.theme.folders for kind in ("templates", "words")]
    files = (path for kind in kinds for path in kind.glob("*.*"))
    return tuple(path.read_text(encoding="utf-8") for path in sorted(files) if path.is_file())


class _Compiled(BytecodeCache):
    """Templates compiled once a process, as long as they are written just so: `show` sets pages again and again."""

    def __init__(self) -> None:
        self._kept: dict[str, bytes] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        if bucket.key in self._kept:
            bucket.bytecode_from_string(self._kept[bucket.key])

    def dump_bytecode(self, bucket: Bucket) -> None:
        self._kept[bucket.key] = bucket.bytecode_to_string()


_COMPILED = _Compiled()


def environment(edition: Edition) -> Environment:
    """The theme's templates: every value escaped, a value that a view lacks an error."""
    made = Environment(
        bytecode_cache=_COMPILED,
        loader=FileSystemLoader([folder / "templates" for folder in edition.theme.folders]),
        undefined=StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    made.globals["words"] = edition.words
    made.globals["sprite"] = sprite()
    made.globals["card"] = _kept(made)
    return made


def _kept(setter: Environment) -> Callable[[SmallCard, str], Markup]:
    """Sets a small card once, as a layering's neighbours and its glazes all show the very same one."""
    done: dict[tuple[int, str], tuple[SmallCard, Markup]] = {}  # With the card, so that no other gets its id.

    def card(each: SmallCard, root: str) -> Markup:
        key = (id(each), root)
        if key not in done:
            done[key] = each, setter.get_template("card.html").module.card(each, root)  # type: ignore[attr-defined]
        return done[key][1]

    return card


def _pictures(edition: Edition, pages: Mapping[str, str]) -> dict[str, bytes]:
    """The pictures that some page shows or leads to, and no others."""
    used = {path for text in pages.values() for path in _PICTURE.findall(text)}
    shown = edition.pictures.values()
    files = {file.path: file for each in shown for kind in (each.sizes, each.webp) for file in kind.values()}
    return {f"site/{path}": files[path].data for path in sorted(used & files.keys())}
