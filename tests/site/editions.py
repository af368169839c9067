"""The site of a small studio, set by the real stages in memory."""

from __future__ import annotations

from collections.abc import Mapping

import html5lib

from combobook.edition import Edition
from combobook.judge import judge, judge_every_pair
from combobook.render.site import site
from combobook.theme import load_theme
from combobook.wording import Words
from tests.studios import make_with


def pages_of(changed: Mapping[str, str] | None = None, without: tuple[str, ...] = ()) -> Mapping[str, str]:
    """Every HTML page of the good studio with these changes, by its path under site/; no pictures."""
    book, found = make_with(changed, without)
    assert not [problem for problem in found if problem.is_error]
    judged, more = judge(book)
    assert not [problem for problem in more if problem.is_error]
    studio = book.studio
    theme, unknown = load_theme(studio.theme.value, studio.language.value, studio.theme.place, studio.language.place)
    assert theme is not None and not unknown
    words = Words(theme.table, studio.units.value)
    pairs, _ = judge_every_pair(book)
    edition = Edition(book=book, judged=judged, pictures={}, theme=theme, words=words, problems=found, pairs=pairs)
    files, problems = site(edition)
    assert not problems
    return {path[5:]: data.decode() for path, data in files.items() if path.endswith(".html")}


def text_of(page: str) -> str:
    """What the page's main part says, by another reader of HTML than ours; spaces as one."""
    tree = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(page)
    main = tree.find(".//main")
    assert main is not None
    return " ".join("".join(main.itertext()).split())
