"""The house's own files, as these tests read them."""

from __future__ import annotations

import ast
import subprocess
from collections.abc import Iterator
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "combobook"


@cache
def modules() -> tuple[Path, ...]:
    """Every module of the program."""
    return tuple(sorted(PACKAGE.rglob("*.py")))


@cache
def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"), filename=str(path))


def named(path: Path) -> str:
    return str(path.relative_to(ROOT))


@cache
def kept_files() -> tuple[Path, ...]:
    """Every file that git keeps or would keep, and that is there; in a copy without git every file but dot-files."""
    if not (ROOT / ".git").exists():
        inside = (p for p in ROOT.rglob("*") if p.is_file() and not p.is_relative_to(ROOT / "build"))
        return tuple(sorted(p for p in inside if not _passed_over(p.relative_to(ROOT).parts)))
    told = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT,
        capture_output=True,
        check=True,
        timeout=60,
    )
    return tuple(ROOT / name for name in sorted(told.stdout.decode().split("\0")) if name and (ROOT / name).is_file())


def _passed_over(parts: tuple[str, ...]) -> bool:
    return any(part.startswith(".") or part == "__pycache__" or part.endswith(".egg-info") for part in parts)


@cache
def texts() -> tuple[tuple[Path, str], ...]:
    """Every kept file that is text, with what it says."""
    found = []
    for path in kept_files():
        data = path.read_bytes()
        if b"\0" not in data[:8000]:
            found.append((path, data.decode("utf-8", errors="replace")))
    return tuple(found)


def functions(module: ast.Module) -> Iterator[ast.FunctionDef | ast.AsyncFunctionDef]:
    """The module's functions and its classes' methods; not functions within functions."""
    for node in module.body:
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            yield node
        elif isinstance(node, ast.ClassDef):
            yield from (n for n in node.body if isinstance(n, ast.FunctionDef | ast.AsyncFunctionDef))
