"""Each problem code has its smallest broken folder, and each such folder gets its exact words and no others."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from tests.gallery.cases import case_names, expected, found, lay_out

PACKAGE = Path(__file__).parents[2] / "combobook"
# The stages and leaves that look at content. Problems of pictures, of our own output and of the place to publish to
# need more than a folder of text and are tested beside those stages.
LOOKS_AT_CONTENT = ("read.py", "parse", "validate", "link", "judge", "theme.py")


def codes_in(path: Path) -> set[str]:
    """Every code that a module writes as `code="…"`, or hands on by position."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    calls = (n for n in ast.walk(tree) if isinstance(n, ast.Call) and isinstance(n.func, ast.Name))
    at = {"error": 1, "warning": 1, "said_twice": 1, "_aged": 5}
    seconds = (n.args[at[n.func.id]] for n in calls if len(n.args) > at.get(n.func.id, 99))
    return {n.value for n in seconds if isinstance(n, ast.Constant) and isinstance(n.value, str)} | {
        word.value.value
        for word in ast.walk(tree)
        if isinstance(word, ast.keyword)
        and word.arg == "code"
        and isinstance(word.value, ast.Constant)
        and isinstance(word.value.value, str)
    }


def all_codes() -> set[str]:
    modules = [
        m for part in LOOKS_AT_CONTENT for m in [PACKAGE / part, *(PACKAGE / part).glob("**/*.py")] if m.is_file()
    ]
    # Built from the kind of entry: link names `unknown-<kind>`.
    kinds = {f"unknown-{k}" for k in ("glaze", "clay", "firing", "photo", "form", "page", "combination")}
    return kinds.union(*(codes_in(module) for module in modules))


def code_of(case: str) -> str:
    return case.partition("--")[0]


@pytest.mark.parametrize("case", case_names())
def test_a_broken_folder_gets_these_words_and_no_others(case: str, tmp_path: Path) -> None:
    assert found(lay_out(case, tmp_path)) == expected(case)


@pytest.mark.parametrize("case", case_names())
def test_a_case_is_about_the_code_it_is_named_for(case: str) -> None:
    codes = re.findall(r"^\S.*:\d+:\d+: (?:error|warning): .*  \[([a-z0-9-]+)\]$", expected(case), re.MULTILINE)
    assert code_of(case) in codes


def test_every_code_has_a_case() -> None:
    assert all_codes() - {code_of(case) for case in case_names()} == set()


def test_no_case_is_about_a_code_that_is_gone() -> None:
    known = all_codes() | codes_in(PACKAGE / "theme.py") | {"unknown-theme", "unknown-language"}
    assert {code_of(case) for case in case_names()} - known == set()


def test_the_good_folder_has_no_problem(tmp_path: Path) -> None:
    assert found(lay_out("_good", tmp_path)) == ""
