"""Stages import leaves, never each other; leaves import no stage; what is heavy is imported where it is needed."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from tests.house.sources import PACKAGE, modules, named, tree

STAGES = ("read", "parse", "validate", "link", "judge", "plan", "picture", "render", "check_output", "publish")
RUNNERS = ("pipeline", "cli", "show", "closing", "take_in", "__main__")
"""They name the pass or start it, and may import any stage."""
FETCHED_LATE = ("weasyprint", "pypdf", "pillow_heif", "watchfiles", "segno", "zxingcpp", "coloraide")
LOADERS = ("load", "safe_load", "full_load", "unsafe_load", "load_all", "safe_load_all", "full_load_all")


def part_of(path: Path) -> str:
    """`parse` for combobook/parse/table.py, `cones` for combobook/cones.py."""
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def imported(module: ast.AST) -> set[str]:
    """What a module imports of combobook, by its first part."""
    names: set[str] = set()
    for node in ast.walk(module):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module == "combobook":
            names |= {f"combobook.{alias.name}" for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            names.add(node.module)
    return {name.split(".")[1] for name in names if name.startswith("combobook.")}


@pytest.mark.parametrize("path", [p for p in modules() if part_of(p) in STAGES], ids=named)
def test_a_stage_imports_no_other_stage_and_nothing_that_runs_stages(path: Path) -> None:
    assert (imported(tree(path)) - {part_of(path)}) & {*STAGES, *RUNNERS} == set()


@pytest.mark.parametrize("path", [p for p in modules() if part_of(p) not in (*STAGES, *RUNNERS)], ids=named)
def test_a_leaf_imports_no_stage(path: Path) -> None:
    assert imported(tree(path)) & {*STAGES, *RUNNERS} == set()


@pytest.mark.parametrize("path", modules(), ids=named)
def test_imports_are_written_out_from_the_top(path: Path) -> None:
    assert [n.lineno for n in ast.walk(tree(path)) if isinstance(n, ast.ImportFrom) and n.level] == []


@pytest.mark.parametrize("path", modules(), ids=named)
def test_what_is_slow_to_import_is_imported_where_it_is_used(path: Path) -> None:
    outermost = [n for n in tree(path).body if isinstance(n, ast.Import | ast.ImportFrom)]
    names = [a.name for n in outermost if isinstance(n, ast.Import) for a in n.names]
    names += [n.module or "" for n in outermost if isinstance(n, ast.ImportFrom)]
    assert {name.split(".")[0] for name in names} & set(FETCHED_LATE) == set()


@pytest.mark.parametrize("path", modules(), ids=named)
def test_no_loader_turns_what_a_potter_typed_into_something_else(path: Path) -> None:
    """`yaml.compose` keeps text and places; every loader would read cone `06` as 6 and `no` as false."""
    used = [n.lineno for n in ast.walk(tree(path)) if isinstance(n, ast.Attribute) and n.attr in LOADERS and of_yaml(n)]
    taken = [
        n.lineno
        for n in ast.walk(tree(path))
        if isinstance(n, ast.ImportFrom) and n.module == "yaml" and {a.name for a in n.names} & set(LOADERS)
    ]
    assert used + taken == []


def of_yaml(attribute: ast.Attribute) -> bool:
    return isinstance(attribute.value, ast.Name) and attribute.value.id == "yaml"


def test_these_tests_would_see_an_import_that_is_not_allowed() -> None:
    module = ast.parse("def f():\n    from combobook import judge\n    import combobook.link.names\n")
    assert imported(module) == {"judge", "link"}
    assert {part_of(p) for p in modules()} > {"problems", "picture", "render", "pipeline"}
