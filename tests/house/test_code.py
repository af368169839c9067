"""How the code is kept: documented, typed, small; ruff and mypy agree."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.house.sources import PACKAGE, ROOT, functions, modules, named, texts, tree

UNFINISHED = re.compile(rf"\b({'|'.join(('TO' + 'DO', 'FIX' + 'ME', 'X' * 3, 'HA' + 'CK'))})\b")
LONG_FUNCTION, LONGEST_FUNCTION, LONG_MODULE = 30, 60, 200


@pytest.mark.parametrize("path", modules(), ids=named)
def test_every_module_says_what_it_is_for(path: Path) -> None:
    assert ast.get_docstring(tree(path)), "no docstring"


@pytest.mark.parametrize("path", modules(), ids=named)
def test_every_public_function_states_its_contract(path: Path) -> None:
    public = [n for n in tree(path).body if isinstance(n, ast.FunctionDef) and not n.name.startswith("_")]
    assert [n.name for n in public if not ast.get_docstring(n)] == []


@pytest.mark.parametrize("path", modules(), ids=named)
def test_every_function_says_what_it_gives(path: Path) -> None:
    assert [n.name for n in functions(tree(path)) if n.returns is None] == []


@pytest.mark.parametrize("path", modules(), ids=named)
def test_annotations_are_not_run(path: Path) -> None:
    lines = [n for n in tree(path).body if isinstance(n, ast.ImportFrom) and n.module == "__future__"]
    has_code = any(not isinstance(n, ast.Expr) for n in tree(path).body)
    assert not has_code or [a.name for n in lines for a in n.names] == ["annotations"] or path.name == "__init__.py"


@pytest.mark.parametrize("path", modules(), ids=named)
def test_dataclasses_are_frozen_and_slotted(path: Path) -> None:
    loose = []
    for node in ast.walk(tree(path)):
        for decorator in node.decorator_list if isinstance(node, ast.ClassDef) else ():
            if isinstance(decorator, ast.Name) and decorator.id == "dataclass":
                loose.append(decorator.lineno)
            elif isinstance(decorator, ast.Call) and isinstance(decorator.func, ast.Name):
                given = {k.arg for k in decorator.keywords if isinstance(k.value, ast.Constant) and k.value.value}
                if decorator.func.id == "dataclass" and not {"frozen", "slots"} <= given:
                    loose.append(decorator.lineno)
    assert loose == []


def test_functions_are_mostly_short_and_none_is_long() -> None:
    lengths = {
        f"{named(p)}:{n.lineno} {n.name}": (n.end_lineno or n.lineno) - n.lineno + 1
        for p in modules()
        for n in functions(tree(p))
    }
    assert {name: length for name, length in lengths.items() if length > LONGEST_FUNCTION} == {}
    assert sum(length <= LONG_FUNCTION for length in lengths.values()) >= 0.9 * len(lengths)


def test_modules_are_mostly_short() -> None:
    lengths = [p.read_text(encoding="utf-8").count("\n") for p in modules()]
    assert sum(length <= LONG_MODULE for length in lengths) >= 0.8 * len(lengths)


def test_no_module_is_a_drawer_for_odds_and_ends() -> None:
    drawers = {"util", "utils", "helper", "helpers", "manager", "core", "common", "misc"}
    assert [named(p) for p in modules() if {p.stem, p.parent.name} & drawers] == []


def test_nothing_is_left_unfinished() -> None:
    found = [
        f"{named(path)}:{number}"
        for path, text in texts()
        for number, line in enumerate(text.split("\n"), 1)
        if UNFINISHED.search(line)
    ]
    assert found == []


def test_ruff_has_nothing_to_say() -> None:
    assert said_by("ruff", "check", "--no-fix", "--output-format", "concise", "combobook", "tests") == "All checks passed!"


def test_mypy_has_nothing_to_say() -> None:
    assert said_by("mypy", "--no-error-summary", "--no-color-output") == ""


def said_by(tool: str, *arguments: str) -> str:
    told = subprocess.run(
        [sys.executable, "-m", tool, *arguments], cwd=ROOT, capture_output=True, text=True, check=False, timeout=300
    )
    return (told.stdout + told.stderr).strip()


def test_the_program_travels_with_its_figures() -> None:
    assert sorted(p.name for p in (PACKAGE / "figures").iterdir()) == ["cones.csv", "leach_limits.csv", "paper_sizes.csv"]
