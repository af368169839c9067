"""The demo studio, published once for all tests that read back what is made."""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from combobook.edition import Edition
from combobook.judge import judge_every_pair
from combobook.picture import picture
from combobook.pipeline import asked, check
from combobook.plan import plan
from combobook.progress import Silent
from combobook.render.chart import wall_chart
from combobook.render.data import data
from combobook.render.site import site
from combobook.wording import Words

CONTENT = Path(__file__).parents[1] / "content"


@cache
def demo_edition() -> Edition:
    """The demo, judged and with its pictures. Raises AssertionError where it has an error."""
    checked = check(CONTENT, Silent())
    assert checked.book is not None and checked.judged is not None and checked.theme is not None
    assert [p for p in checked.problems if p.is_error] == []
    shown = sorted(p.name for p in (CONTENT / "photos").iterdir())
    pictures, problems = picture(CONTENT, shown, Path(tempfile.mkdtemp()) / "cache")
    assert problems == ()
    pairs, _ = judge_every_pair(checked.book)
    words = Words(checked.theme.table, checked.book.studio.units.value)
    return Edition(
        book=checked.book,
        judged=checked.judged,
        pictures=pictures,
        theme=checked.theme,
        words=words,
        problems=checked.problems,
        pairs=pairs,
        plan=plan(checked.book, pairs, asked(checked.book))[0],
    )


@cache
def demo_files() -> Mapping[str, bytes]:
    """Every file of the demo's edition, by its path under build/."""
    made: dict[str, bytes] = {}
    for render in (site, wall_chart, data):
        files, problems = render(demo_edition())
        assert problems == ()
        made.update(files)
    return made


def site_on_a_stick(home: Path) -> Path:
    """The demo's files below site/, laid out in a folder with a space in its name under `home`; gives that folder."""
    book = home / "the book"
    for path, contents in demo_files().items():
        if path.startswith("site/"):
            (book / path).parent.mkdir(parents=True, exist_ok=True)
            (book / path).write_bytes(contents)
    return book
