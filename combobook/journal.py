"""Several new files in a studio's folder: all of them or none, whatever stops the program.

They are laid out in a folder whose name begins with a dot, which nothing reads. Giving that folder its second name is
the moment at which they count; from then on whoever comes next puts them in their places, if the first could not.
"""

from __future__ import annotations

import contextlib
import json
import os
import re
import shutil
from collections.abc import Iterator, Mapping
from pathlib import Path, PurePosixPath

from combobook.records import settle, write_through

LAID_OUT, COUNTS = ".take-in.new", ".take-in"
_LIST = "files.json"


class Busy(Exception):
    """Another take-in is at work in the folder."""


@contextlib.contextmanager
def alone(folder: Path) -> Iterator[None]:
    """For one take-in at a time; ends with the process, however it ends. Raises Busy, OSError."""
    try:
        import fcntl
    except ImportError:  # A system without such locks: nothing keeps two apart but their users.
        yield
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            raise Busy from None
        yield
    finally:
        os.close(handle)


def finished(folder: Path) -> bool:
    """Put in place what an interrupted take-in had ready; True where there was such. Raises OSError."""
    shutil.rmtree(folder / LAID_OUT, ignore_errors=True)
    if not is_unfinished(folder):
        shutil.rmtree(folder / COUNTS, ignore_errors=True)
        return False
    _put(folder)
    return True


def is_unfinished(folder: Path) -> bool:
    """True where files that count are not all in their places."""
    return (folder / COUNTS / _LIST).is_file()


def write_all(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write new files (paths from the folder), the last of them last. Raises OSError, where one is there too.

    Nothing is written over. Until all are safely laid out nothing can be seen of any.
    """
    if not files:
        return
    if taken := [path for path in files if (folder / path).exists()]:
        raise FileExistsError(taken[0])
    laid = folder / LAID_OUT
    laid.mkdir()
    try:
        for number, data in enumerate(files.values()):
            write_through(laid / str(number), data)
        write_through(laid / _LIST, json.dumps(list(files)).encode())
        settle(laid)
        os.rename(laid, folder / COUNTS)
    except BaseException:
        shutil.rmtree(laid, ignore_errors=True)
        raise
    settle(folder)
    _put(folder)


def _put(folder: Path) -> None:
    """Every file that counts to its place; those that are there already stay as they are."""
    laid = folder / COUNTS
    paths: list[str] = json.loads((laid / _LIST).read_bytes())
    parents = {(folder / path).parent for path in paths}
    for parent in parents:
        parent.mkdir(exist_ok=True)
    for number, path in enumerate(paths):
        _place(laid / str(number), _free(folder, path, laid / str(number)))
    for parent in parents:
        settle(parent)
    # The list goes first: without it the rest is waste, and no second take-in puts it anywhere.
    (laid / _LIST).unlink()
    shutil.rmtree(laid, ignore_errors=True)
    settle(folder)


def _place(staged: Path, to: Path | None) -> None:
    if to is None or not staged.exists():
        return
    try:
        os.link(staged, to)
    except FileExistsError:
        return
    except OSError:  # A file system without second names.
        os.rename(staged, to)
    else:
        # What has its place is not put there a second time, should somebody have mended it since.
        staged.unlink()


def _free(folder: Path, path: str, staged: Path) -> Path | None:
    """Where the file goes: a log to the next free number, should somebody have taken its name; None: it stands."""
    to = folder / path
    match = re.fullmatch(r"(.*-)(\d+)", PurePosixPath(path).stem)
    number = int(match[2]) if match else 0
    while to.exists():
        if not staged.exists() or to.read_bytes() == staged.read_bytes() or not path.startswith("logs/"):
            return None
        number += 1
        to = to.with_name(f"{match[1] if match else ''}{number}.csv")
    return to
