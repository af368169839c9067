"""The program's own records in a studio's folder: written whole or not at all, never over what somebody else wrote."""

from __future__ import annotations

import glob
import os
import secrets
from pathlib import Path


def write_new(path: Path, data: bytes) -> None:
    """Make a file that is not there yet. Raises FileExistsError where it is, OSError where it cannot be made.

    Whatever stops it, a lost machine too, either the whole file is there or none.
    """
    with _beside(path, data) as staged:
        try:
            os.link(staged, path)
        except FileExistsError:
            raise
        except OSError:  # A file system without second names.
            _rename_new(staged, path)
    settle(path.parent)


def replace(path: Path, data: bytes) -> None:
    """Put a file in place of the one that is there, if any, in one step. Raises OSError."""
    with _beside(path, data) as staged:
        os.replace(staged, path)
    settle(path.parent)


class _beside:  # noqa: N801  # reads as the preposition it is
    """A file of these bytes under a name that nobody reads, on the disk; gone afterwards."""

    def __init__(self, path: Path, data: bytes) -> None:
        self._data, self._name = data, path.name
        self._staged = path.parent / f".{path.name}.{secrets.token_hex(4)}.new"

    def __enter__(self) -> Path:
        self._staged.parent.mkdir(parents=True, exist_ok=True)
        for left in self._staged.parent.glob(f".{glob.escape(self._name)}.*.new"):
            left.unlink(missing_ok=True)  # What a killed run left half written.
        write_through(self._staged, self._data)
        return self._staged

    def __exit__(self, *_: object) -> None:
        self._staged.unlink(missing_ok=True)


def _rename_new(staged: Path, path: Path) -> None:
    if path.exists():
        raise FileExistsError(path)
    os.rename(staged, path)


def write_through(path: Path, data: bytes) -> None:
    """Make a new file and see it onto the disk. Raises OSError, FileExistsError where there is one."""
    with path.open("xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def settle(folder: Path) -> None:
    """Asks the disk to keep the folder's new names; where folders cannot be opened, it does so by itself."""
    try:
        handle = os.open(folder, os.O_RDONLY)
    except OSError:
        return
    try:
        os.fsync(handle)
    except OSError:
        pass
    finally:
        os.close(handle)
