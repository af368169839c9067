"""Whatever stands in a file, reading ends with values and problems: never with an exception."""

from __future__ import annotations

import time
from pathlib import Path

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from combobook.parse import parse
from combobook.parse.compose import LOADER
from combobook.problems import printed
from combobook.read import read
from combobook.validate import validate
from combobook.validate.known import KNOWN
from tests.reading.reader import content_of, entries_of

FOLDERS = [folder for folder in KNOWN if folder]
PATHS = st.sampled_from(["studio.yaml", "logs/a.csv", *(f"{folder}/a.md" for folder in FOLDERS)])
SCRAPS = st.sampled_from(
    ["---\n", "name", "mark", ": ", ":", "- ", "  ", "\t", "\n", '"', "'", "[", "]", "{", "}", "#", " #", "&a", "*a", "!x",
     "|", ">", "?", "%", "@", "`", "6", "1/0", "1/2", "½", "5 to 6", "-", "–", "mm", "\x85", "\u2028", "\r", "\ufeff", "food safe",
     "not", "tile,base,base coats,top,top coats,clay,firing,kiln shelf,stood,ran,faults\n", ",", ";", "B1,FR,2,,,,,,,,\n",
     *{field for fields in KNOWN.values() for field in fields}]
)  # fmt: skip
SCRAPPY = st.lists(SCRAPS | st.text(max_size=4), max_size=40).map("".join)


def fronted(body: str) -> str:
    return f"---\n{body}\n---\nText\n"


@given(path=PATHS, text=SCRAPPY | SCRAPPY.map(fronted))
@settings(max_examples=600, deadline=None, derandomize=True)
def test_no_text_breaks_parse_and_validate(path: str, text: str) -> None:
    content = content_of({path: text.replace("\r\n", "\n").replace("\r", "\n")})
    raw, problems = parse(content)
    _, more = validate(raw)
    lines = {source.path: source.lines for source in content.sources}
    for problem in (*problems, *more):
        assert printed(problem, lines)
        assert 1 <= problem.place.line <= len(lines[path])
        assert 1 <= problem.place.column <= len(lines[path][problem.place.line - 1]) + 2
        assert problem.message[0] == problem.message[0].lower() or problem.message.startswith("YAML")
        assert problem.help


@given(path=PATHS, data=st.binary(max_size=200))
@settings(
    max_examples=150, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
def test_no_bytes_break_reading(path: str, data: bytes, tmp_path: Path) -> None:
    file = tmp_path / path
    file.parent.mkdir(exist_ok=True)
    file.write_bytes(data)
    content, _ = read(tmp_path)
    raw, _ = parse(content)
    validate(raw)
    file.unlink()


@given(value=st.text(max_size=30), field=st.sampled_from(sorted({f for fields in KNOWN.values() for f in fields})))
@settings(max_examples=600, deadline=None, derandomize=True)
def test_no_value_breaks_a_field(value: str, field: str) -> None:
    quoted = "'" + value.replace("'", "''") + "'"
    for folder in FOLDERS:
        raw, _ = parse(content_of({f"{folder}/a.md": f"---\n{field}: {quoted}\n---\n"}))
        validate(raw)


@given(cells=st.lists(st.text(max_size=12), min_size=11, max_size=11), delimiter=st.sampled_from(",;\t"))
@settings(max_examples=400, deadline=None, derandomize=True)
def test_no_cell_breaks_a_log(cells: list[str], delimiter: str) -> None:
    header = delimiter.join(
        ["tile", "base", "base coats", "top", "top coats", "clay", "firing", "kiln shelf", "stood", "ran", "faults"]
    )
    row = delimiter.join('"' + cell.replace('"', '""') + '"' for cell in cells)
    raw, _ = parse(content_of({"logs/a.csv": f"{header}\n{row}\n"}))
    validate(raw)


BOMBS = ("[" * 4_000, "a: " + "{" * 4_000, "- " * 2_000, "? " * 2_000, "".join(" " * n + "a:\n" for n in range(600)))


@pytest.mark.parametrize("loader", [yaml.SafeLoader, LOADER])
@pytest.mark.parametrize("bomb", BOMBS)
def test_nesting_beyond_reason_is_a_problem_and_no_crash(
    bomb: str, loader: type, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("combobook.parse.compose.LOADER", loader)
    _, problems = entries_of({"pages/a.md": f"---\n{bomb}\n---\n"})
    assert problems


def test_a_megabyte_of_anything_is_read_in_a_moment() -> None:
    begun = time.process_time()
    for body in ("food safe " * 90_000, "." * 900_000, "food" + " " * 900_000, "\n" * 900_000 + "food safe"):
        entries_of({"pages/a.md": f"---\ntitle: A\n---\n{body}\n"})
    assert time.process_time() - begun < 20
