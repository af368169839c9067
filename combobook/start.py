"""Lay out a new studio's folder from the starter that travels with the program."""

from __future__ import annotations

import secrets
import shutil
from importlib import resources
from pathlib import Path


def lay_out(folder: Path) -> str:
    """Copy the starter to `folder`, whole or not at all. Gives why not, or an empty text when it is done."""
    if folder.is_symlink() or (folder.exists() and not folder.is_dir()):
        return f"`{folder}` is not a folder. Name one that does not exist yet."
    where = folder.absolute()
    staged = where.parent / f".{where.name}-{secrets.token_hex(4)}"
    try:
        if folder.exists() and any(folder.iterdir()):
            return f"`{folder}` holds something already, and nothing there is overwritten. Name an empty or new folder."
        staged.parent.mkdir(parents=True, exist_ok=True)
        with resources.as_file(resources.files("combobook") / "starter") as starter:
            shutil.copytree(starter, staged, copy_function=shutil.copyfile)
        _put_in_place(staged, folder)
    except OSError as failure:
        shutil.rmtree(staged, ignore_errors=True)
        # A copy of many files gathers its failures: the first says enough.
        why = failure.args[0][0][2] if isinstance(failure, shutil.Error) else failure.strerror
        return f"`{folder}` could not be laid out: {why or failure}."
    return ""


def _put_in_place(staged: Path, folder: Path) -> None:
    """Staged becomes `folder`; an empty folder that is there already (perhaps somebody stands in it) is filled."""
    if not folder.exists():
        staged.rename(folder)
        return
    moved = []
    try:
        for child in sorted(staged.iterdir()):
            child.rename(folder / child.name)
            moved.append(child)
    except OSError:
        for child in moved:
            (folder / child.name).rename(child)
        raise
    staged.rmdir()
