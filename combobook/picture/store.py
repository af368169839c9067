"""Pictures kept between editions, by what is in the photograph and not by its name or date.

`<cache>/pictures/<2 hex>/<32 hex>-<size>.jpg` holds the JPEGs; `index.json` beside the shards remembers which photo
had which contents when it was last looked at, and what was made of it. Anything in the index that cannot be read, or
a kept JPEG that is not as it was written, only means that the picture is made again.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from combobook.pictures import SIZES

SETTLED_NS = 2_000_000_000
"""A file changed less than this before it was read may change again without its dates showing it (FAT: 2 s)."""
_ORPHANED_NS = 3_600_000_000_000
_KEPT = re.compile(r"[0-9a-f]{32}-\d+\.jpg")
Stamp = tuple[int, int, int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptFile:
    """One JPEG as it was written."""

    width: int
    height: int
    bytes: int
    sha256: str
    mtime_ns: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """What was made of one photograph: the kind and pixels of the original, and its sizes in the order of SIZES."""

    format: str
    width: int
    height: int
    files: tuple[KeptFile, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """A photo file when its contents were last read; without a stamp it must be read again."""

    stamp: Stamp | None
    sha256: str


class Store:
    """The cache folder and its index. Threads may use one together: each touches only its own photograph's entries."""

    def __init__(self, cache: Path, made_with: str) -> None:
        self.folder = cache.absolute() / "pictures"
        self._made_with = made_with
        self.seen, self.kept = _index_read(self.folder / "index.json", made_with)
        self._before = (dict(self.seen), dict(self.kept))

    def path(self, sha256: str, longest: int) -> Path:
        return self.folder / sha256[:2] / f"{sha256[:32]}-{longest}.jpg"

    def known_contents(self, photo: Path) -> str | None:
        """The SHA-256 of the photo if its size, dates and inode are as when it was read; else None: read it."""
        seen = self.seen.get(str(photo))
        return seen.sha256 if seen is not None and seen.stamp == _stamp(photo) else None

    def contents(self, photo: Path) -> tuple[bytes, str]:
        """Reads the photo and remembers what was in it. Raises OSError where it cannot be read."""
        stamp, now = _stamp(photo), time.time_ns()
        data = photo.read_bytes()
        sha256 = hashlib.sha256(data).hexdigest()
        still = stamp == _stamp(photo) and now - max(stamp[1], stamp[2]) > SETTLED_NS
        self.seen[str(photo)] = Seen(stamp=stamp if still else None, sha256=sha256)
        return data, sha256

    def find(self, sha256: str) -> Kept | None:
        """What was made of these contents, if every size is still there as it was written."""
        kept = self.kept.get(sha256)
        if kept is None or len(kept.files) != len(SIZES):
            return None
        paths = [self.path(sha256, longest) for longest in SIZES.values()]
        return kept if all(_as_written(p, f) for p, f in zip(paths, kept.files, strict=True)) else None

    def keep(self, sha256: str, source: tuple[str, int, int], sizes: list[tuple[int, int, bytes]]) -> Kept:
        """Writes each size whole or not at all. Raises OSError where the cache cannot be written."""
        files = []
        for longest, (width, height, data) in zip(SIZES.values(), sizes, strict=True):
            mtime_ns = _written_whole(self.path(sha256, longest), data)
            digest = hashlib.sha256(data).hexdigest()
            files.append(KeptFile(width=width, height=height, bytes=len(data), sha256=digest, mtime_ns=mtime_ns))
        kept = Kept(format=source[0], width=source[1], height=source[2], files=tuple(files))
        self.kept[sha256] = kept
        return kept

    def close(self, photos: Path, used: frozenset[Path]) -> None:
        """Forgets what no photo needs any more and saves the index. Raises OSError where it cannot be written.

        Another folder that shares the cache keeps its pictures for as long as its photos exist.
        """
        for name in list(self.seen):
            photo = Path(name)
            if photo not in used and (photo.parent == photos or not photo.exists()):
                del self.seen[name]
        needed = {seen.sha256 for seen in self.seen.values()}
        gone = set(self.kept) - needed
        for sha256 in gone:
            del self.kept[sha256]
        if (self.seen, self.kept) != self._before:
            _written_whole(self.folder / "index.json", _index_bytes(self._made_with, self.seen, self.kept))
        self._sweep(gone)

    def _sweep(self, gone: set[str]) -> None:
        """Removes what is no longer needed at once, and what no index knows once it is an hour old."""
        for sha256 in gone:
            for longest in SIZES.values():
                self.path(sha256, longest).unlink(missing_ok=True)
        names = {self.path(sha256, longest).name for sha256 in self.kept for longest in SIZES.values()}
        for shard in sorted(self.folder.glob("[0-9a-f][0-9a-f]")):
            for file in shard.iterdir():
                ours = _KEPT.fullmatch(file.name) or file.name.startswith(".part-")
                if ours and file.name not in names and time.time_ns() - file.stat().st_mtime_ns > _ORPHANED_NS:
                    file.unlink(missing_ok=True)


def _stamp(photo: Path) -> Stamp:
    """Size, both dates and inode. The change date cannot be set back, as the other can."""
    stat = photo.stat()
    return (stat.st_size, stat.st_mtime_ns, stat.st_ctime_ns, stat.st_ino)


def _as_written(path: Path, file: KeptFile) -> bool:
    """Size and date as written; where only the date differs (a copied cache) the bytes decide."""
    try:
        stat = path.stat()
        if stat.st_size != file.bytes:
            return False
        return stat.st_mtime_ns == file.mtime_ns or hashlib.sha256(path.read_bytes()).hexdigest() == file.sha256
    except OSError:
        return False


def _written_whole(path: Path, data: bytes) -> int:
    """Writes beside and swaps, so that no reader ever meets half a file; the date it was written, in ns."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, part = tempfile.mkstemp(prefix=".part-", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(data)
        os.replace(part, path)
    except BaseException:
        Path(part).unlink(missing_ok=True)
        raise
    return path.stat().st_mtime_ns


def _index_read(path: Path, made_with: str) -> tuple[dict[str, Seen], dict[str, Kept]]:
    """What the index says; what was made with other settings or libraries is dropped, and made again."""
    try:
        index: Any = json.loads(path.read_bytes())
        seen = {
            str(name): Seen(stamp=None if s["stamp"] is None else _four(s["stamp"]), sha256=_digest(s["sha256"]))
            for name, s in index["seen"].items()
        }
        kept = {
            _digest(sha256): Kept(
                format=str(k["format"]),
                width=int(k["width"]),
                height=int(k["height"]),
                files=tuple(KeptFile(**file) for file in k["files"]),
            )
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


def _index_bytes(made_with: str, seen: dict[str, Seen], kept: dict[str, Kept]) -> bytes:
    index = {
        "made_with": made_with,
        "seen": {name: {"stamp": s.stamp, "sha256": s.sha256} for name, s in seen.items()},
        "kept": {
            sha256: {
                "format": k.format,
                "width": k.width,
                "height": k.height,
                "files": [
                    {
                        "width": f.width,
                        "height": f.height,
                        "bytes": f.bytes,
                        "sha256": f.sha256,
                        "mtime_ns": f.mtime_ns,
                    }
                    for f in k.files
                ],
            }
            for sha256, k in kept.items()
        },
    }
    return json.dumps(index, sort_keys=True, indent=0).encode()
