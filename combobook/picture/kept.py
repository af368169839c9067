"""What the picture cache remembers, and its index as text."""

from __future__ import annotations

import json
import re
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from combobook.colours import Lab, TileColour
from combobook.pictures import SIZES, Edges, TagSeen

FILES: tuple[tuple[int, str], ...] = tuple((longest, kind) for longest in SIZES.values() for kind in ("jpg", "webp"))
"""Longest side and kind of each file that is made of a photograph, in order."""
Stamp = tuple[int, int, int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptFile:
    """One file as it was written."""

    width: int
    height: int
    bytes: int
    sha256: str
    mtime_ns: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """What was made of one photograph: the original's kind and pixels, its FILES in order, what it shows."""

    format: str
    width: int
    height: int
    files: tuple[KeptFile, ...]
    tag: TagSeen | None
    tile: Edges | None
    colour: TileColour | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """A photo file when its contents were last read; without a stamp it must be read again."""

    stamp: Stamp | None
    sha256: str


def index_read(path: Path, made_with: str) -> tuple[dict[str, Seen], dict[str, Kept]]:
    """What the index says; what was made with other settings or libraries is dropped, and made again."""
    try:
        index: Any = json.loads(path.read_bytes())
        seen = {
            str(name): Seen(stamp=None if s["stamp"] is None else _four(s["stamp"]), sha256=_digest(s["sha256"]))
            for name, s in index["seen"].items()
        }
        kept = {
            _digest(sha256): _kept(k)
            for sha256, k in index["kept"].items()
        }
        return seen, kept if index["made_with"] == made_with else {}
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return {}, {}


def _four(stamp: list[int]) -> Stamp:
    size, modified, changed, inode = stamp
    return (int(size), int(modified), int(changed), int(inode))


def _digest(text: str) -> str:
    """A SHA-256 in hex, because paths are made of it. Raises ValueError for anything else."""
    if not re.fullmatch(r"[0-9a-f]{64}", text):
        raise ValueError(text)
    return text


def _kept(said: dict[str, Any]) -> Kept:
    tag, tile, colour = said["tag"], said["tile"], said["colour"]
    return Kept(
        format=str(said["format"]),
        width=int(said["width"]),
        height=int(said["height"]),
        files=tuple(KeptFile(**file) for file in said["files"]),
        tag=TagSeen(mark=str(tag["mark"]), pixels_per_mm=float(tag["pixels_per_mm"])) if tag else None,
        tile=_edges(tile) if tile else None,
        colour=_colour(colour) if colour else None,
    )


def _edges(said: list[float]) -> Edges:
    left, top, right, low = said
    return (float(left), float(top), float(right), float(low))


def _colour(said: dict[str, Any]) -> TileColour:
    breaking = said["breaking"]
    return TileColour(
        main=_lab(said["main"]), breaking=_lab(breaking) if breaking else None, balanced=said["balanced"] is True
    )


def _lab(said: dict[str, Any]) -> Lab:
    return Lab(l=float(said["l"]), a=float(said["a"]), b=float(said["b"]))


def index_bytes(made_with: str, seen: dict[str, Seen], kept: dict[str, Kept]) -> bytes:
    """The index as JSON."""
    index = {
        "made_with": made_with,
        "seen": {name: {"stamp": s.stamp, "sha256": s.sha256} for name, s in seen.items()},
        "kept": {sha256: asdict(each) for sha256, each in kept.items()},
    }
    return json.dumps(index, sort_keys=True, indent=0).encode()
