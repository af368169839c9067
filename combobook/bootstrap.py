"""Set up a fresh checkout: `.venv` beside pyproject.toml, what it names installed, and on inside it.

Standard library alone, and written so that an older Python can read it far enough to say that it is too old.
Run as a script (`python bootstrap.py --report ROOT EXTRA`) it tells what the interpreter that runs it lacks. Most
starts find everything in place, so what only a set-up needs is imported where it is used: `check` starts in a blink.
"""

from __future__ import annotations

import json
import os
import re
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

OLDEST = (3, 11)
A_FAULT_OF_ITS_OWN = 3
_TURN = "COMBOBOOK_SETUP_TURN"
_STAMP = "combobook-setup.json"


def prepare(module: str, extra: str = "", needs: tuple[str, ...] = ()) -> None:
    """Return when this process has all it needs; otherwise set up and start `module` again inside `.venv`.

    `extra` is a set of optional dependencies in pyproject.toml; `needs` are those of `machine`. Installed as a
    package it does nothing. Raises SystemExit(3), with the reason on standard error, where it cannot.
    """
    if sys.version_info < OLDEST:
        _stop(_too_old(module))
    root = _checkout()
    if root is None:
        return
    turn = int(os.environ.pop(_TURN, None) or 0)
    venv = root / ".venv"
    if turn == 0 and not _inside(venv) and _fresh(root, venv, extra):
        _go_on_inside(venv, module, 1)
    if not _may_go_on(root, venv, extra):
        if turn >= 2:
            _stop("%s was set up, but does not work. Remove that folder and run the same command again." % venv)
        with _alone(root):
            _set_up(root, venv, extra)
        _go_on_inside(venv, module, 2)
    _meet(needs)


def lacking(root: Path, extra: str = "") -> list[str]:
    """Requirements of pyproject.toml (with `extra`'s) that this interpreter does not meet, as written there."""
    import tomllib

    project = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    wanted = list(project.get("dependencies", ()))
    if extra:
        wanted += project["optional-dependencies"][extra]
    return [requirement for requirement in wanted if not _met(requirement)]


def _may_go_on(root: Path, venv: Path, extra: str) -> bool:
    """This interpreter has everything: `.venv` as stamped, or any interpreter where nothing is lacking."""
    if _inside(venv) and _fresh(root, venv, extra):
        return True
    if lacking(root, extra):
        return False
    if _inside(venv):
        _stamp(root, venv, extra)
    return True


def _checkout() -> Path | None:
    """The folder with pyproject.toml that this package runs from; None where it is installed."""
    root = Path(__file__).resolve().parent.parent
    if {"site-packages", "dist-packages"} & set(root.parts):
        return None
    try:
        project = (root / "pyproject.toml").read_text(encoding="utf-8")
    except OSError:
        return None
    return root if re.search(r'^name = "combobook"$', project, re.MULTILINE) else None


def _met(requirement: str) -> bool:
    """Plain requirements only (`name>=1.2,<3`): one with a marker or a direct reference counts as met."""
    from importlib import metadata

    match = re.fullmatch(r"([A-Za-z0-9._-]+)\s*(?:\[[^]]*\])?\s*([^;@]*)", requirement)
    if match is None:
        return True
    try:
        found = metadata.distribution(match[1])
    except metadata.PackageNotFoundError:
        return False
    tops = {file.parts[0] for file in found.files or () if file.parts[0] not in ("..", "__pycache__")}
    there = all(os.path.lexists(str(found.locate_file(top))) for top in tops)
    return there and all(_fits(found.version, bound.strip()) for bound in match[2].split(",") if bound.strip())


def _fits(version: str, bound: str) -> bool:
    operator = (re.match(r"[<>=!~]+", bound) or [""])[0]
    have, want = _release(version), _release(bound[len(operator):])
    if operator == ">=":
        return have >= want
    if operator == "<":
        return have < want
    # Rarer operators are pip's business: it resolved them when it installed what the stamp records.
    return True


def _release(version: str) -> tuple[int, ...]:
    numbers = re.match(r"[0-9]+(?:\.[0-9]+)*", version.strip())
    release = [int(n) for n in numbers[0].split(".")] if numbers else []
    while release and release[-1] == 0:
        release.pop()
    return tuple(release)


def _python(venv: Path) -> Path:
    return venv / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def _inside(venv: Path) -> bool:
    return Path(sys.prefix).resolve() == venv.resolve() and sys.prefix != sys.base_prefix


def _fresh(root: Path, venv: Path, extra: str) -> bool:
    """The stamp says that all was installed from this very pyproject.toml, and packages were not touched since."""
    try:
        stamp = json.loads((venv / _STAMP).read_text(encoding="utf-8"))
        return (
            stamp["root"] == str(root)
            and stamp["project"] == _project(root)
            and extra in ("", stamp["extra"])
            and stamp["packages"] == os.stat(stamp["site"]).st_mtime_ns
            and _python(venv).exists()
            and (not _inside(venv) or stamp["python"] == list(sys.version_info[:2]))
        )
    except (OSError, ValueError, KeyError, TypeError):
        return False


def _project(root: Path) -> str:
    return (root / "pyproject.toml").read_text(encoding="utf-8")


def _stamp(root: Path, venv: Path, extra: str) -> None:
    """Record what is installed. A checkout that cannot be written goes unstamped and is looked over each time."""
    import sysconfig

    site = sysconfig.get_path("purelib", vars={"base": str(venv), "platbase": str(venv)})
    facts: dict[str, object] = {"root": str(root), "project": _project(root), "extra": extra, "site": site}
    try:
        facts.update(packages=os.stat(site).st_mtime_ns, python=list(sys.version_info[:2]))
        new = venv / ("%s.%d" % (_STAMP, os.getpid()))
        new.write_text(json.dumps(facts), encoding="utf-8")
        os.replace(str(new), str(venv / _STAMP))
    except OSError:
        pass


def _set_up(root: Path, venv: Path, extra: str) -> None:
    """Make or mend `.venv` and install into it; returns only when nothing is lacking there."""
    from combobook.machine import say

    if os.path.lexists(str(venv)) and not venv.is_dir():
        _stop("%s is in the way: a folder of that name is needed there. Move it elsewhere." % venv)
    extra = extra or _stamped_extra(venv)
    state = _report(root, venv, extra)
    if state == []:
        return
    if state is None:
        say("making %s" % venv)
        _make(venv)
    what = "combobook and what its tests need" if extra else "combobook and what it needs"
    say("installing %s into %s (a few minutes the first time)" % (what, venv))
    _install(root, venv, extra)
    state = _report(root, venv, extra)
    if state:  # Metadata that speaks of files which are gone: pip believes it, so begin again.
        say("mending %s" % venv)
        _make(venv)
        _install(root, venv, extra)
        state = _report(root, venv, extra)
    if state != []:
        _stop("after installing, this is still lacking in %s: %s" % (venv, ", ".join(state or ["Python itself"])))
    say("done")


def _stamped_extra(venv: Path) -> str:
    """What was asked for before, so that a changed pyproject.toml brings the tests' needs up to date too."""
    try:
        extra = json.loads((venv / _STAMP).read_text(encoding="utf-8"))["extra"]
    except (OSError, ValueError, KeyError, TypeError):
        return ""
    return extra if extra == "tests" else ""


def _report(root: Path, venv: Path, extra: str) -> list[str] | None:
    """What `.venv` lacks, asked of its own Python (which stamps it where that is nothing); None: it is no use."""
    import subprocess

    command = [str(_python(venv)), "-I", str(Path(__file__).resolve()), "--report", str(root), extra]
    try:
        done = subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, timeout=120)
        report = json.loads(done.stdout)
    except (OSError, ValueError, subprocess.TimeoutExpired):
        return None
    if done.returncode or Path(report["prefix"]).resolve() != venv.resolve() or not report["usable"]:
        return None
    return [str(requirement) for requirement in report["lacking"]]


def _answer(root: Path, extra: str) -> None:
    """The other end of `_report`, inside `.venv`."""
    from importlib import metadata, util

    venv = root / ".venv"
    usable = sys.version_info >= OLDEST and util.find_spec("pip") is not None
    found = lacking(root, extra) if usable else []
    try:
        url = json.loads(metadata.distribution("combobook").read_text("direct_url.json") or "{}").get("url")
    except (metadata.PackageNotFoundError, ValueError):
        url = None
    if url is not None and url != root.as_uri():
        usable = False  # Made elsewhere and moved or copied here: its scripts point to the old place.
    if url is None:
        found.append("combobook")
    if usable and not found:
        _stamp(root, venv, extra)
    print(json.dumps({"prefix": sys.prefix, "usable": usable, "lacking": found}))


def _make(venv: Path) -> None:
    """An empty virtual environment with pip, whatever stood there."""
    import shutil
    import subprocess

    from combobook.machine import install_with_apt

    python = getattr(sys, "_base_executable", None) or sys.executable
    if venv in Path(python).parents:
        # Without its pyvenv.cfg the environment's Python takes itself for the machine's: follow it home.
        python = os.path.realpath(python)
    debian = "python%d.%d-venv" % sys.version_info[:2]
    has_pip = subprocess.run([python, "-I", "-c", "import ensurepip, venv"], capture_output=True).returncode == 0
    if not has_pip and not install_with_apt([debian]):
        apt = shutil.which("apt-get")
        how = "sudo apt-get install -y " + debian if apt else "install venv and ensurepip for " + python
        _stop("this Python cannot make a virtual environment: its venv or ensurepip is missing. Run:\n    " + how)
    done = subprocess.run([python, "-I", "-m", "venv", "--clear", str(venv)], stdin=subprocess.DEVNULL,
                          stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    if done.returncode:
        _stop("could not make %s:\n%s" % (venv, done.stdout.decode("utf-8", "replace")[-2000:]))


def _install(root: Path, venv: Path, extra: str) -> None:
    """`pip install -e .`; the stamp is gone while it runs, so that a half-done one is never taken for whole."""
    import subprocess

    try:
        os.remove(str(venv / _STAMP))
    except OSError:
        pass
    what = ".[%s]" % extra if extra else "."
    command = [str(_python(venv)), "-I", "-m", "pip", "install", "--disable-pip-version-check", "--no-input", "-q"]
    done = subprocess.run([*command, "-e", what], cwd=str(root), stdin=subprocess.DEVNULL, stderr=subprocess.STDOUT,
                          stdout=subprocess.PIPE)
    if done.returncode:
        output = done.stdout.decode("utf-8", "replace")[-3000:]
        _stop("pip could not install what pyproject.toml names (is this machine online?):\n%s" % output)


@contextmanager
def _alone(root: Path) -> Iterator[None]:
    """One set-up of a checkout at a time; the second waits and finds the work done. Needs no file of its own on
    POSIX, where pyproject.toml itself is locked."""
    try:
        import fcntl
    except ImportError:
        import hashlib
        import msvcrt
        import tempfile

        name = "combobook-%s.lock" % hashlib.sha256(str(root).encode()).hexdigest()[:16]
        with open(os.path.join(tempfile.gettempdir(), name), "a+") as lock:
            msvcrt.locking(lock.fileno(), msvcrt.LK_LOCK, 1)  # type: ignore[attr-defined]
            yield
        return
    with open(str(root / "pyproject.toml"), "rb") as lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX)
        except OSError:
            pass  # A file system without locks: two set-ups at once are then the user's to avoid.
        yield


def _go_on_inside(venv: Path, module: str, turn: int) -> None:
    """Never returns: this process becomes (on Windows: waits for) the same command inside `.venv`."""
    command = [str(_python(venv)), "-m", module, *sys.argv[1:]]
    environment = dict(os.environ)
    environment[_TURN] = str(turn)
    sys.stdout.flush()
    sys.stderr.flush()
    if os.name == "nt":
        import subprocess

        raise SystemExit(subprocess.call(command, env=environment))
    os.execve(command[0], command, environment)


def _meet(needs: tuple[str, ...]) -> None:
    if not needs:
        return
    from combobook import machine

    lack = machine.missing(needs)
    if lack and not machine.provide(lack):
        _stop("this machine lacks what combobook needs here. Run this, then the same command again:\n    %s"
              % machine.command_for(lack))


def _too_old(module: str) -> str:
    import shutil

    text = "Python %d.%d or newer is needed, this is %d.%d." % (OLDEST + tuple(sys.version_info[:2]))
    for minor in range(20, OLDEST[1] - 1, -1):
        if shutil.which("python3.%d" % minor):
            return text + " Run instead:\n    python3.%d -m %s %s" % (minor, module, " ".join(sys.argv[1:]))
    return text + " Install one with your system's package manager and run the same command with it."


def _stop(reason: str) -> None:
    sys.stderr.write("combobook set-up: %s\n" % reason)
    raise SystemExit(A_FAULT_OF_ITS_OWN)


if __name__ == "__main__" and sys.argv[1:2] == ["--report"]:
    _answer(Path(sys.argv[2]), sys.argv[3])
