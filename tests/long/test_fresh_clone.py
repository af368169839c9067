"""The README's two commands in a fresh clone, with an empty environment: nothing else done before."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
pytestmark = pytest.mark.long


@pytest.fixture(scope="module")
def clone(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("fresh") / "a clone"
    subprocess.run(["git", "clone", "-q", str(ROOT), str(folder)], check=True)
    return folder


def run(clone: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    python = getattr(sys, "_base_executable", sys.executable)
    return subprocess.run(
        [python, "-m", *arguments], cwd=clone, env={"PATH": os.environ["PATH"]}, capture_output=True, text=True, timeout=1800
    )


def test_the_first_command_publishes_the_demo(clone: Path) -> None:
    done = run(clone, "combobook", "publish")
    assert done.returncode == 0, done.stderr
    assert (clone / "build/site/index.html").is_file()
    assert (clone / "build/.gitignore").is_file()


def test_the_second_collects_every_test(clone: Path) -> None:
    done = run(clone, "tests", "--collect-only", "-q")
    assert done.returncode == 0, done.stdout + done.stderr
    assert "installing combobook and what its tests need" in done.stderr


def test_afterwards_the_clone_is_as_it_was(clone: Path) -> None:
    status = subprocess.run(["git", "status", "--short"], cwd=clone, capture_output=True, text=True, check=True)
    assert status.stdout == ""
