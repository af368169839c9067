"""The gallery's good studio as an edition, with other forms."""

from __future__ import annotations

from combobook.edition import Edition
from combobook.judge import judge
from combobook.theme import load_theme
from combobook.wording import Words
from tests.studios import entry, make_with


def with_forms(*forms: tuple[str, str]) -> Edition:
    """An edition of two glazes and a layering, with these forms alone: a name and a height, or none."""
    files = {
        f"forms/form{n}.md": entry(
            f"name: {name}", *((f"height: {height} mm",) if height else ()), "holds food: yes", "inside: hollow"
        )
        for n, (name, height) in enumerate(forms)
    }
    book, problems = make_with(files, without=("forms/mug.md",))
    assert [p for p in problems if p.is_error] == []
    own = book.studio
    theme, _ = load_theme(own.theme.value, own.language.value, own.theme.place, own.language.place)
    assert theme is not None
    words = Words(theme.table, own.units.value)
    return Edition(book=book, judged=judge(book)[0], pictures={}, theme=theme, words=words, problems=())
