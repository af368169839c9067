"""Where a named photo is, and that it lies in photos/ and nowhere else."""

from __future__ import annotations

from pathlib import Path, PurePath

from combobook.picture.faults import fault
from combobook.pictures import FORMATS
from combobook.problems import Problem


def found(photos: Path, name: str) -> Path | Problem:
    """The file, or why it is not read. `photos` is the resolved content folder's photos/.

    A link is followed only to another file in photos/; a folder, pipe or device is no photo.
    """
    if name in ("", ".", "..") or PurePath(name).name != name or "\\" in name or "\0" in name:
        return fault("photo-missing", name.replace("\0", "?"))
    try:
        real = (photos / name).resolve(strict=True)
    except (OSError, RuntimeError):  # not there, or links in a circle
        return fault("photo-missing", name)
    if not real.is_relative_to(photos):
        return fault("photo-outside", name)
    if not real.is_file():
        return fault("photo-missing", name)
    suffix = PurePath(name).suffix
    if suffix.lower() not in FORMATS:
        return fault("photo-unreadable", name, suffix=suffix or "no suffix")
    return photos / name
