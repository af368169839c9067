"""A fresh checkout sets itself up, keeps itself up to date and mends itself; a package does nothing of the kind.

Played on a small checkout of its own: our set-up modules, a command that tells where it runs, and a build backend
and a dependency that need no network. The real thing, from a clone, is under tests/long.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from combobook import bootstrap

PACKAGE = Path(bootstrap.__file__).parent
COMMAND = """
import json, sys
def run(arguments):
    import pondlib
    print(json.dumps({"arguments": list(arguments), "prefix": sys.prefix}))
    return 7
"""
PROJECT = """
[build-system]
requires = []
build-backend = "backend"
backend-path = ["."]

[project]
name = "combobook"
version = "1"
dependencies = ["pondlib>=1"]

[project.optional-dependencies]
tests = []
"""
BACKEND = """
import zipfile
from pathlib import Path
INFO = "combobook-1.dist-info"
def build_editable(folder, settings=None, metadata=None):
    name = "combobook-1-py3-none-any.whl"
    files = {"combobook.pth": str(Path.cwd()), INFO + "/METADATA": "Metadata-Version: 2.1\\nName: combobook\\nVersion: 1\\n"
             + "Requires-Dist: pondlib>=1\\nProvides-Extra: tests\\n",
             INFO + "/WHEEL": "Wheel-Version: 1.0\\nGenerator: x\\nRoot-Is-Purelib: true\\nTag: py3-none-any\\n"}
    files[INFO + "/RECORD"] = "".join(path + ",,\\n" for path in [*files, INFO + "/RECORD"])
    with zipfile.ZipFile(Path(folder) / name, "w") as wheel:
        for path, text in files.items():
            wheel.writestr(path, text)
    return name
"""


def dependency(folder: Path, version: str) -> None:
    info = f"pondlib-{version}.dist-info"
    files = {
        "pondlib/__init__.py": "",
        f"{info}/METADATA": f"Metadata-Version: 2.1\nName: pondlib\nVersion: {version}\n",
        f"{info}/WHEEL": "Wheel-Version: 1.0\nGenerator: x\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
    }
    files[f"{info}/RECORD"] = "".join(f"{path},,\n" for path in [*files, f"{info}/RECORD"])
    with zipfile.ZipFile(folder / f"pondlib-{version}-py3-none-any.whl", "w") as wheel:
        for path, text in files.items():
            wheel.writestr(path, text)


class Checkout:
    def __init__(self, root: Path, wheels: Path) -> None:
        self.root, self.wheels, self.venv = root, wheels, root / ".venv"

    def environment(self, **more: str) -> dict[str, str]:
        """Almost nothing, as on a machine where nobody has set up anything: no HOME, no PYTHONPATH."""
        return {"PATH": os.environ["PATH"], "PIP_NO_INDEX": "1", "PIP_FIND_LINKS": str(self.wheels), **more}

    def run(self, *arguments: str, python: str = sys.executable, **more: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [python, "-m", "combobook", *arguments],
            cwd=self.root, env=self.environment(**more), capture_output=True, text=True, timeout=120,
        )

    def assert_ran(self, done: subprocess.CompletedProcess[str], *news: str) -> None:
        """It ran inside `.venv`, its exit code came through, and the set-up said exactly `news`."""
        said = [line.removeprefix("combobook set-up: ") for line in done.stderr.splitlines()]
        assert (done.returncode, said) == (7, list(news))
        assert Path(json.loads(done.stdout)["prefix"]).resolve() == self.venv.resolve()

    @property
    def news(self) -> dict[str, str]:
        return {
            "make": f"making {self.venv}",
            "install": f"installing combobook and what it needs into {self.venv} (a few minutes the first time)",
            "mend": f"mending {self.venv}",
            "done": "done",
        }


@pytest.fixture(scope="module")
def checkout(tmp_path_factory: pytest.TempPathFactory) -> Checkout:
    """Set up once, with a space in its name; each test breaks it, and what mends it is what is tested."""
    root = tmp_path_factory.mktemp("fresh") / "a clone"
    wheels = tmp_path_factory.mktemp("wheels")
    (root / "combobook").mkdir(parents=True)
    for name in ("__main__.py", "bootstrap.py", "machine.py"):
        shutil.copy(PACKAGE / name, root / "combobook")
    (root / "combobook/__init__.py").write_text("")
    (root / "combobook/cli.py").write_text(COMMAND)
    (root / "pyproject.toml").write_text(PROJECT)
    (root / "backend.py").write_text(BACKEND)
    dependency(wheels, "1.0")
    fresh = Checkout(root, wheels)
    done = fresh.run("check", "a folder")
    fresh.assert_ran(done, fresh.news["make"], fresh.news["install"], fresh.news["done"])
    assert json.loads(done.stdout)["arguments"] == ["check", "a folder"]
    return fresh


def test_the_second_time_nothing_is_said_or_done(checkout: Checkout) -> None:
    checkout.assert_ran(checkout.run("check"))


def test_inside_the_environment_it_runs_as_it_is(checkout: Checkout) -> None:
    checkout.assert_ran(checkout.run("check", python=str(checkout.venv / "bin/python")))


def test_a_changed_project_file_is_looked_over_and_what_it_newly_needs_is_installed(checkout: Checkout) -> None:
    project = checkout.root / "pyproject.toml"
    project.write_text(PROJECT + "# a remark\n")
    checkout.assert_ran(checkout.run("check"))
    dependency(checkout.wheels, "2.0")
    (checkout.root / "backend.py").write_text(BACKEND.replace("pondlib>=1", "pondlib>=2"))
    project.write_text(PROJECT.replace("pondlib>=1", "pondlib>=2"))
    checkout.assert_ran(checkout.run("check"), checkout.news["install"], checkout.news["done"])
    checkout.assert_ran(checkout.run("check"))


def test_an_environment_without_its_python_is_made_again(checkout: Checkout) -> None:
    (checkout.venv / "bin/python").unlink()
    (checkout.venv / "bin/python").symlink_to("/nowhere/python3")
    checkout.assert_ran(checkout.run("check"), *map(checkout.news.get, ("make", "install", "done")))


def test_an_environment_whose_settings_are_gone_is_made_again(checkout: Checkout) -> None:
    (checkout.venv / "pyvenv.cfg").unlink()
    checkout.assert_ran(checkout.run("check"), *map(checkout.news.get, ("make", "install", "done")))


def test_an_environment_that_lost_a_package_gets_it_back(checkout: Checkout) -> None:
    [site] = checkout.venv.glob("lib/python*/site-packages")
    shutil.rmtree(site / "pondlib")
    done = checkout.run("check")
    checkout.assert_ran(done, *map(checkout.news.get, ("install", "mend", "done")))


def test_a_set_up_that_was_interrupted_is_finished(checkout: Checkout) -> None:
    shutil.rmtree(checkout.venv)
    (checkout.venv / "bin").mkdir(parents=True)
    checkout.assert_ran(checkout.run("check"), *map(checkout.news.get, ("make", "install", "done")))


def test_where_pip_fails_it_says_so_and_stops_with_3_and_the_next_run_finishes(checkout: Checkout) -> None:
    shutil.rmtree(checkout.venv)
    done = checkout.run("check", PIP_FIND_LINKS="/nowhere")
    assert done.returncode == 3
    assert "pip could not install what pyproject.toml names (is this machine online?)" in done.stderr
    assert "pondlib" in done.stderr
    assert "Traceback" not in done.stderr
    checkout.assert_ran(checkout.run("check"), *map(checkout.news.get, ("install", "done")))


def test_a_file_in_the_way_is_not_touched(checkout: Checkout) -> None:
    aside = checkout.venv.rename(checkout.root / "aside")
    checkout.venv.write_text("notes")
    try:
        done = checkout.run("check")
        assert done.returncode == 3
        assert done.stderr == (
            f"combobook set-up: {checkout.venv} is in the way: a folder of that name is needed there. Move it elsewhere.\n"
        )
        assert checkout.venv.read_text() == "notes"
    finally:
        checkout.venv.unlink()
        aside.rename(checkout.venv)


def test_two_at_once_set_up_once(checkout: Checkout) -> None:
    shutil.rmtree(checkout.venv)
    both = [
        subprocess.Popen(
            [sys.executable, "-m", "combobook", "check"], cwd=checkout.root, env=checkout.environment(),
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
        )
        for _ in range(2)
    ]
    ended = [(process.communicate(timeout=120), process.returncode) for process in both]
    assert [code for _, code in ended] == [7, 7]
    assert sorted(len(err.splitlines()) for (_, err), _ in ended) == [0, 3]


def test_a_checkout_that_was_moved_is_set_up_again_where_it_is(checkout: Checkout, tmp_path: Path) -> None:
    moved = Checkout(tmp_path / "moved", checkout.wheels)
    shutil.copytree(checkout.root, moved.root, symlinks=True)
    moved.assert_ran(moved.run("check"), *map(moved.news.get, ("make", "install", "done")))


def test_an_interpreter_that_has_everything_needs_no_environment(checkout: Checkout, tmp_path: Path) -> None:
    bare = Checkout(tmp_path / "bare", checkout.wheels)
    shutil.copytree(checkout.root, bare.root, ignore=shutil.ignore_patterns(".venv"))
    done = bare.run("check", python=str(checkout.venv / "bin/python"))
    assert (done.returncode, done.stderr) == (7, "")
    assert not bare.venv.exists()


def test_installed_as_a_package_it_never_sets_up(checkout: Checkout, tmp_path: Path) -> None:
    site = tmp_path / "lib/site-packages"
    shutil.copytree(checkout.root / "combobook", site / "combobook")
    shutil.copy(checkout.root / "pyproject.toml", site)
    (site / "combobook/cli.py").write_text("def run(arguments):\n    return 7\n")
    done = subprocess.run(
        [sys.executable, "-m", "combobook", "check"], cwd=tmp_path, capture_output=True, text=True,
        env=checkout.environment(PYTHONPATH=str(site)),
    )
    assert (done.returncode, done.stdout, done.stderr) == (7, "", "")
    assert not (site / ".venv").exists()


def test_an_older_python_is_told_which_to_use(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr(bootstrap, "OLDEST", (4, 0))
    monkeypatch.setattr(shutil, "which", lambda name: None)
    with pytest.raises(SystemExit) as stopped:
        bootstrap.prepare("combobook")
    assert stopped.value.code == 3
    here = f"{sys.version_info[0]}.{sys.version_info[1]}"
    assert capsys.readouterr().err == (
        f"combobook set-up: Python 4.0 or newer is needed, this is {here}. "
        "Install one with your system's package manager and run the same command with it.\n"
    )


@pytest.mark.parametrize("name", ["__init__.py", "__main__.py", "bootstrap.py", "machine.py"])
def test_an_older_python_can_read_that_far(name: str) -> None:
    """Python 3.7's grammar, so that the message above and not a syntax error is what people see."""
    import ast

    ast.parse((PACKAGE / name).read_text(encoding="utf-8"), feature_version=(3, 7))


@pytest.mark.parametrize(
    ("version", "bound", "fits"),
    [("1.10", ">=1.9", True), ("1.0", ">=1", True), ("0.9.9", ">=1", False), ("1.27.1", "<1.27", False),
     ("1.26.9", "<1.27", True), ("2.0rc1", ">=2", True)],
)
def test_versions_are_numbers_not_text(version: str, bound: str, fits: bool) -> None:
    assert bootstrap._fits(version, bound) is fits
