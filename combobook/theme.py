"""Themes and their words: where the files are, and the table of words read. Leaf module.

A theme is a folder under themes/ (in a checkout) or combobook/themes/ (in a wheel) with `templates/`, `style/` and
`words/<language>.yaml`. What a theme leaves out comes from `daylight`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import yaml

from combobook.problems import Place, Problem, Severity
from combobook.spelling import did_you_mean

BASIC_THEME = "daylight"
Table = Mapping[str, object]


@dataclass(frozen=True, slots=True, kw_only=True)
class Theme:
    """A theme's folders in the order in which a file is looked for, and its table of words."""

    name: str
    language: str
    folders: tuple[Path, ...]
    table: Table

    def file(self, path: str) -> Path:
        """The theme's file at `path`, or the basic theme's. Raises FileNotFoundError where neither has it."""
        for folder in self.folders:
            if (folder / path).is_file():
                return folder / path
        raise FileNotFoundError(f"no theme file {path} for theme {self.name}")

    def text(self, path: str) -> str:
        return self.file(path).read_text(encoding="utf-8")


def themes_folder() -> Path:
    """themes/ inside the installed package, else beside it in a checkout."""
    package = Path(__file__).resolve().parent
    inside = package / "themes"
    return inside if inside.is_dir() else package.parent / "themes"


def theme_names() -> tuple[str, ...]:
    """Every theme there is, sorted."""
    return tuple(sorted(p.name for p in themes_folder().iterdir() if (p / "style").is_dir()))


def languages() -> tuple[str, ...]:
    """Every language the basic theme has words in, sorted."""
    return tuple(sorted(p.stem for p in (themes_folder() / BASIC_THEME / "words").glob("*.yaml")))


def load_theme(
    name: str, language: str, name_at: Place, language_at: Place
) -> tuple[Theme | None, tuple[Problem, ...]]:
    """The theme, or None with a problem at the studio's own words where it, or the language, does not exist."""
    problems = [
        Problem(
            place=at,
            severity=Severity.ERROR,
            code=code,
            message=f"no {what} called `{word}`",
            help=did_you_mean(word, known) or f"one of: {', '.join(known)}",
            width=len(word),
        )
        for what, code, word, known, at in (
            ("theme", "unknown-theme", name, theme_names(), name_at),
            ("language", "unknown-language", language, languages(), language_at),
        )
        if word not in known
    ]
    if problems:
        return None, tuple(problems)
    root = themes_folder()
    folders = tuple(dict.fromkeys((root / name, root / BASIC_THEME)))
    words = next(f / "words" / f"{language}.yaml" for f in folders if (f / "words" / f"{language}.yaml").is_file())
    return Theme(name=name, language=language, folders=folders, table=_WordsFile(words)), ()


class _WordsFile(Mapping[str, object]):
    """A words file as the table it holds, read when somebody first asks for a word: `check` asks for none."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._read: dict[str, object] | None = None

    def _all(self) -> dict[str, object]:
        if self._read is None:
            self._read = _words(self._path.read_text(encoding="utf-8"))
        return self._read

    def __getitem__(self, key: str) -> object:
        return self._all()[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._all())

    def __len__(self) -> int:
        return len(self._all())

    def __eq__(self, other: object) -> bool:
        # A Mapping would copy both; whatever was kept from one edition to the next is compared by this.
        return self._all() == (other._all() if isinstance(other, _WordsFile) else other)

    __hash__ = None  # type: ignore[assignment]


@lru_cache(maxsize=4)
def _words(text: str) -> dict[str, object]:
    """The table of a words file's text. Nobody changes it: who reads the same text again is given the same table."""
    table = _table(yaml.compose(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader)))
    assert isinstance(table, dict)
    return table


def _table(node: object) -> object:
    """Our own words file as nested mappings and lists of text: nothing is converted."""
    if isinstance(node, yaml.MappingNode):
        return {key.value: _table(value) for key, value in node.value}
    if isinstance(node, yaml.SequenceNode):
        return [_table(item) for item in node.value]
    assert isinstance(node, yaml.ScalarNode)
    return str(node.value)
