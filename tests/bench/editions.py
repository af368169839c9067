"""A folder taken as far as an edition that can be rendered."""

from __future__ import annotations

from pathlib import Path

from combobook.edition import Edition
from combobook.picture import picture
from combobook.pipeline import check
from combobook.problems import in_order
from combobook.progress import Progress, Silent
from combobook.wording import Words


def edition_of(folder: Path, cache: Path, progress: Progress | None = None) -> Edition:
    """The edition of a folder without errors, with every photo that is in it. Raises ValueError where there are."""
    checked = check(folder, progress or Silent())
    if checked.book is None or checked.theme is None or checked.judged is None or any(p.is_error for p in checked.problems):
        raise ValueError(f"{folder} has errors: {[p for p in checked.problems if p.is_error][:5]}")
    pictures, problems = picture(folder, checked.book.photos, cache)
    return Edition(
        book=checked.book,
        judged=checked.judged,
        pictures=pictures,
        theme=checked.theme,
        words=Words(checked.theme.table, checked.book.studio.units.value),
        problems=in_order((*checked.problems, *problems)),
    )
