"""Put a finished edition in place: staged whole beside the old one, then exchanged in one step.

What publish makes it marks, and only what is marked is ever replaced. Nothing is cleared before something whole
stands ready, so whatever fails (a full disk, a lost permission, a crash) the last edition is where it was.
"""

from __future__ import annotations

import os
import posixpath
import re
import secrets
import shutil
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path, PurePosixPath

from combobook.exchange import exchange
from combobook.problems import Place, Problem, Severity

MARKER = ".combobook"
KEPT = (".gitignore",)
"""What is carried over from the folder that is replaced; by path from it."""
_MARK = b"combobook put this folder here and replaces all of it, .gitignore apart, with each new edition.\n"


def refusals(to: Path, content: Path) -> tuple[Problem, ...]:
    """Why no edition may be put at `to`, before any work is done; empty when it may."""
    reason = _refusal(to, content)
    if not reason:
        return ()
    help_ = "name another folder with --to: one that does not exist, is empty, or holds an earlier edition"
    return (_problem("refused-folder", reason, help_),)


def publish(files: Mapping[str, bytes], to: Path, content: Path) -> tuple[Problem, ...]:
    """Make `to` hold exactly `files` (by POSIX path), a marker, and what is KEPT. Equal files are not written again.

    A failure is a problem (place: the edition as a whole) and leaves the old edition untouched.
    Raises ValueError for a path that would lead out of `to`.
    """
    for path in files:
        _must_stay_inside(path)
    refused = refusals(to, content)
    if refused:
        return refused
    to = to.absolute()
    wanted = {**files, MARKER: _MARK}
    try:
        to.parent.mkdir(parents=True, exist_ok=True)
        with _alone(to.parent):
            _recover(to)
            old = _regular_files(to)
            same = {path for path, data in wanted.items() if path in old and _holds(os.path.join(to, path), data)}
            if same == wanted.keys() and old <= same | set(KEPT):
                return ()
            _replace(to, wanted, same, old)
    except OSError as failure:
        what = f" ({failure.filename})" if failure.filename else ""
        message = f"the edition could not be put in place: {failure.strerror or failure}{what}"
        return (_problem("cannot-publish", message, "free some space or mend the permissions, then publish again"),)
    return ()


def _replace(to: Path, wanted: Mapping[str, bytes], same: set[str], old: set[str]) -> None:
    staged = to.parent / f".{to.name}-new-{secrets.token_hex(4)}"
    try:
        staged.mkdir()
        # The marker first: it is how the next publish knows what a crash has left behind.
        _write(staged / MARKER, _MARK)
        for folder in sorted({posixpath.dirname(path) for path in wanted}):
            (staged / folder).mkdir(parents=True, exist_ok=True)
        for path, data in wanted.items():
            if path != MARKER:
                _place(os.path.join(staged, path), data, os.path.join(to, path) if path in same else None)
        for path in KEPT:
            if path in old and path not in wanted:
                _write(staged / path, (to / path).read_bytes())
        if to.is_dir():
            shutil.copymode(to, staged)
        exchange(staged, to)
    finally:
        # After an exchange this is the old edition, else a half-made new one. What will not go now goes next time.
        shutil.rmtree(staged, ignore_errors=True)


def _place(target: str, data: bytes, equal: str | None) -> None:
    """Write, or take the equal file of the old edition by a second name, which costs no writing."""
    if equal is not None:
        try:
            os.link(equal, target)
        except OSError:  # A file system without second names.
            pass
        else:
            return
    _write(target, data)


def _write(target: Path | str, data: bytes) -> None:
    with open(target, "xb") as file:
        file.write(data)


def _holds(path: str, data: bytes) -> bool:
    if os.stat(path).st_size != len(data):
        return False
    with open(path, "rb") as file:
        return file.read() == data


def _refusal(to: Path, content: Path) -> str:
    try:
        return _by_place(to, content) or _by_what_lies_there(to)
    except OSError as failure:
        return f"this folder cannot be looked into: {failure.strerror}"


def _by_place(to: Path, content: Path) -> str:
    place, source = to.absolute(), content.resolve()
    if to.is_symlink():
        return "this is a link to another folder, and an edition replaces a folder, not what a link points to"
    if place.resolve() == source or source in place.resolve().parents:
        return "this lies in the content folder, where only authors write"
    if place.resolve() in source.parents:
        return "the content folder lies in here, and an edition replaces all that is in its folder"
    return ""


def _by_what_lies_there(to: Path) -> str:
    if not to.exists():
        return ""
    if not to.is_dir():
        return "this is a file, and an edition needs a folder"
    names = {entry.name for entry in to.iterdir()} - set(KEPT)
    marker = to / MARKER
    if names and (marker.is_symlink() or not marker.is_file()):
        return "this folder holds things that combobook did not put there"
    return ""


def _regular_files(folder: Path) -> set[str]:
    """POSIX paths of all that is in `folder` and no folder; links are listed, never followed."""
    found: set[str] = set()
    for here, folders, names in os.walk(folder, followlinks=False):
        lead = Path(here).relative_to(folder)
        links = {name for name in (*names, *folders) if os.path.islink(os.path.join(here, name))}
        # A link is never equal to what we wrote: under a name of its own it makes the folders differ.
        found.update((lead / f"{name} is a link").as_posix() for name in links)
        found.update(posixpath.join(*lead.parts, name) for name in names if name not in links)
        folders[:] = [name for name in folders if name not in links]
    return found


def _recover(to: Path) -> None:
    """Undo or clear away what a publish that was killed has left beside `to`. Only marked folders are touched."""
    pattern = re.compile(re.escape(f".{to.name}-") + r"(new|old)-[0-9a-f]{8}")
    for left in sorted(to.parent.iterdir()):
        match = pattern.fullmatch(left.name)
        if match is None or left.is_symlink() or not left.is_dir():
            continue
        ours = (left / MARKER).is_file()
        if match[1] == "old" and not to.exists():
            left.rename(to)
        elif ours or not any(left.iterdir()):
            shutil.rmtree(left, ignore_errors=True)


@contextmanager
def _alone(parent: Path) -> Iterator[None]:
    """One publish in a folder at a time; the second waits. Where folders cannot be locked, nobody waits."""
    try:
        import fcntl
    except ImportError:
        yield
        return
    lock = os.open(parent, os.O_RDONLY)
    try:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX)
        except OSError:
            pass
        yield
    finally:
        os.close(lock)


def _must_stay_inside(path: str) -> None:
    parts = PurePosixPath(path).parts
    if not parts or path != "/".join(parts) or ".." in parts or re.search(r"[\\:\x00-\x1f]", path):
        raise ValueError(f"not a path inside an edition: {path!r}")


def _problem(code: str, message: str, help_: str) -> Problem:
    return Problem(
        place=Place(path="", line=1), severity=Severity.ERROR, code=code, message=message, help=help_
    )
