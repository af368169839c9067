"""The package that hatchling builds: everything travels in it, and it runs without the checkout."""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "pip", "wheel", "-q", "--no-deps", "--no-build-isolation", "--no-index", "-w", str(folder), str(ROOT)]
    done = subprocess.run(command, capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stdout + done.stderr
    [built] = folder.glob("combobook-*.whl")
    return built


def tracked(folder: str) -> set[str]:
    """Every file of a folder of the checkout, but what Python leaves behind."""
    return {
        p.relative_to(ROOT).as_posix() for p in (ROOT / folder).rglob("*") if p.is_file() and "__pycache__" not in p.parts
    }


def test_the_program_its_figures_the_starter_and_the_themes_travel_in_it(wheel: Path) -> None:
    names = set(zipfile.ZipFile(wheel).namelist())
    assert tracked("combobook") <= names
    assert {f"combobook/{path}" for path in tracked("themes")} <= names
    assert {"combobook/starter/studio.yaml", "combobook/figures/cones.csv", "combobook/themes/daylight/words/en.yaml"} <= names
    assert any(name.endswith("licenses/LICENSE") for name in names)


def test_nothing_else_does(wheel: Path) -> None:
    for name in zipfile.ZipFile(wheel).namelist():
        assert name.startswith("combobook/") or ".dist-info/" in name, name


def test_unpacked_elsewhere_it_starts_and_checks_a_studio_and_sets_nothing_up(wheel: Path, tmp_path: Path) -> None:
    site = tmp_path / "site-packages"
    zipfile.ZipFile(wheel).extractall(site)
    environment = {**os.environ, "PYTHONPATH": str(site)}

    def run(*arguments: str) -> subprocess.CompletedProcess[str]:
        command = [sys.executable, "-m", "combobook", *arguments]
        return subprocess.run(command, capture_output=True, text=True, cwd=tmp_path, env=environment, timeout=60)

    where = [sys.executable, "-c", "import combobook; print(combobook.__file__)"]
    assert str(site) in subprocess.run(where, capture_output=True, text=True, cwd=tmp_path, env=environment).stdout
    assert run("--version").stdout == "combobook, version 0.3.0\n"
    started = run("start", "studio")
    assert (started.returncode, started.stderr) == (0, "")
    checked = run("check", "studio")
    assert (checked.returncode, checked.stderr) == (0, "no problems\n")
    assert sorted(p.name for p in tmp_path.iterdir()) == ["site-packages", "studio"]
    assert not (site / ".venv").exists()
