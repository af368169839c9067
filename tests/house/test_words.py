"""What the program may not say in its own voice, and what lies at the top of the house."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.house.sources import PACKAGE, ROOT, kept_files, modules, named, texts, tree

# rules.md, before section 1. A sentence that denies it is a caution and stands.
CLAIM = re.compile(r"\b(?:\w+-)?safe\b|\bcertif(?:y|ies|ied)\b|\bapproved?s?\b|\bguarantee[ds]?\b|\bcompl(?:y|ies) with\b", re.IGNORECASE)
DENIAL = re.compile(r"\b(?:not|never|no|nothing|nobody|without|cannot)\b", re.IGNORECASE)
SENTENCE_END = re.compile(r"(?<=[.!?:;])\s+|\n\s*\n|\n(?=\s*(?:-|\w+:))")

LISTS_OF_CLAIMS = ("combobook/claims.py", "combobook/validate/known.py")
"""They look for a claim in what others wrote, and so have to name it."""

TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "LICENSE", "combobook", "content", "themes", "tests", "build"}

# Written with a pattern in the middle, so that this file names none of them either.
REGISTRIES = re.compile(
    r"\bpypi\s*\.\s*\w|python[h]osted\s*\.|\bnpm[j]s\s*\.|\bcrates\s*\.\s*i[o]|\brubygem[s]\s*\.|\bunpk[g]\s*\."
    r"|jsdeliv[r]|\bproxy\.golan[g]|cdnj[s]|conda\.anacond[a]|conda-forg[e]\.|debian\.or[g]|registry\.\w+\.(?:com|org)",
    re.IGNORECASE,
)


def claims(text: str) -> list[str]:
    """The sentences of a text that claim and deny nothing."""
    return [s.strip() for s in SENTENCE_END.split(text) if CLAIM.search(s) and not denied(s)]


def denied(sentence: str) -> bool:
    claim = CLAIM.search(sentence)
    assert claim is not None
    return DENIAL.search(sentence[: claim.start()]) is not None


def said_in(path: Path) -> Iterator[str]:
    """The texts of a module that could be printed: every string but docstrings."""
    docs = {
        id(n.body[0].value)
        for n in ast.walk(tree(path))
        if isinstance(n, ast.Module | ast.ClassDef | ast.FunctionDef) and n.body and isinstance(n.body[0], ast.Expr)
    }
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docs:
            yield node.value


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("This glaze is food safe.", ["This glaze is food safe."]),
        ("It is never food safe.", []),
        ("Nobody can say that it is safe. It is safe.", ["It is safe."]),
        ("full: Certified for plates", ["Certified for plates"]),
        ("For safety, read the label.", []),
        ("It complies with the limits and is not tested.", ["It complies with the limits and is not tested."]),
    ],
)
def test_a_claim_is_found_and_a_caution_is_not(text: str, expected: list[str]) -> None:
    assert claims(text) == expected


@pytest.mark.parametrize("folder", ["themes", "combobook/starter", "content"])
def test_no_word_page_or_template_claims_that_anything_is_fit_for_food(folder: str) -> None:
    written = [(p, t) for p, t in texts() if p.is_relative_to(ROOT / folder) and p.suffix != ".csv"]
    # `label says` and `handling` are a label's own words, quoted (entry-format.md, "Glaze").
    own = [(p, re.sub(r"(?ms)^(label says|handling):.*?(?=^\S|\Z)", "", t)) for p, t in written]
    assert {named(p): claims(t) for p, t in own if claims(t)} == {}


def test_no_message_of_the_program_claims_that_anything_is_fit_for_food() -> None:
    asked = [p for p in modules() if named(p) not in LISTS_OF_CLAIMS]
    assert {named(p): found for p in asked if (found := [c for text in said_in(p) for c in claims(text)])} == {}


def test_only_the_house_as_designed_lies_at_the_top() -> None:
    top = {path.relative_to(ROOT).parts[0] for path in kept_files()}
    assert {name for name in top if not name.startswith(".")} - TOP == set()


def test_only_its_gitignore_is_kept_of_what_publish_leaves() -> None:
    assert [named(p) for p in kept_files() if p.is_relative_to(ROOT / "build")] in ([], ["build/.gitignore"])


def test_no_file_names_a_package_registrys_host() -> None:
    found = [
        f"{named(path)}:{number}"
        for path, text in texts()
        for number, line in enumerate(text.split("\n"), 1)
        if REGISTRIES.search(line)
    ]
    assert found == []


def test_a_registrys_host_would_be_found() -> None:
    assert all(REGISTRIES.search(host) for host in ("https://" + "py" + "pi.org", "files.python" + "hosted.org"))


def test_no_template_asks_anything_of_another_machine() -> None:
    asked = re.compile(r"""(?:src|href|srcset|action)\s*=\s*["']?\s*(?:https?:)?//|@import|url\(\s*["']?\s*(?:https?:)?//""", re.IGNORECASE)
    found = [named(p) for p, text in texts() if p.is_relative_to(ROOT / "themes") and asked.search(text)]
    assert found == []


def test_no_picture_of_the_repository_tells_where_it_was_taken() -> None:
    pictures = [p for p in kept_files() if p.suffix.lower() in (".jpg", ".jpeg", ".webp", ".png", ".heic")]
    assert [named(p) for p in pictures if b"Exif\0\0" in p.read_bytes()[:4096]] == []
    assert sum(p.stat().st_size for p in pictures if p.is_relative_to(ROOT / "content")) < 20_000_000


def test_the_package_names_its_published_figures_as_the_tests_do() -> None:
    """The figures that travel with the program are the published tables, byte for byte."""
    for figures in (PACKAGE / "figures").glob("*.csv"):
        assert figures.read_bytes() == (ROOT / "tests" / "published" / figures.name).read_bytes(), figures.name
