"""Pictures kept between editions, by what is in the photograph and not by its name or date.

`<cache>/pictures/<2 hex>/<32 hex>-<size>.jpg` and `.webp` hold them; `index.json` beside the shards remembers which
photo had which contents when it was last looked at, and what was made of it. Anything in the index that cannot be
read, or a kept file that is not as it was written, only means that the picture is made again.
"""

from __future__ import annotations

import hashlib
import os
import re
import tempfile
import time
from pathlib import Path

from combobook.colours import TileColour
from combobook.picture.kept import FILES, Kept, KeptFile, Seen, Stamp, index_bytes, index_read
from combobook.pictures import Edges, TagSeen

SETTLED_NS = 2_000_000_000
"""A file changed less than this before it was read may change again without its dates showing it (FAT: 2 s)."""
_ORPHANED_NS = 3_600_000_000_000
_KEPT = re.compile(r"[0-9a-f]{32}-\d+\.(?:jpg|webp)")


class Store:
    """The cache folder and its index. Threads may use one together: each touches only its own photograph's entries."""

    def __init__(self, cache: Path, made_with: str) -> None:
        self.folder = cache.absolute() / "pictures"
        self._made_with = made_with
        self.seen, self.kept = index_read(self.folder / "index.json", made_with)
        self._before = (dict(self.seen), dict(self.kept))

    def path(self, sha256: str, longest: int, kind: str) -> Path:
        return Path(os.path.join(self.folder, sha256[:2], _file_name(sha256, longest, kind)))

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
        """What was made of these contents, if every file is still there as it was written."""
        kept = self.kept.get(sha256)
        if kept is None or len(kept.files) != len(FILES):
            return None
        paths = [self.path(sha256, *file) for file in FILES]
        return kept if all(_as_written(p, f) for p, f in zip(paths, kept.files, strict=True)) else None

    def keep(
        self,
        sha256: str,
        source: tuple[str, int, int],
        files: list[tuple[int, int, bytes]],
        shows: tuple[TagSeen | None, Edges | None, TileColour | None],
    ) -> Kept:
        """Writes each of FILES, in order, whole or not at all. Raises OSError where the cache cannot be written."""
        written = []
        for file, (width, height, data) in zip(FILES, files, strict=True):
            mtime_ns = _written_whole(self.path(sha256, *file), data)
            digest = hashlib.sha256(data).hexdigest()
            written.append(KeptFile(width=width, height=height, bytes=len(data), sha256=digest, mtime_ns=mtime_ns))
        (kind, wide, high), (tag, tile, colour) = source, shows
        kept = Kept(format=kind, width=wide, height=high, files=tuple(written), tag=tag, tile=tile, colour=colour)
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
            _written_whole(self.folder / "index.json", index_bytes(self._made_with, self.seen, self.kept))
        self._sweep(gone)

    def _sweep(self, gone: set[str]) -> None:
        """Removes what is no longer needed at once, and what no index knows once it is an hour old."""
        for sha256 in gone:
            for file in FILES:
                self.path(sha256, *file).unlink(missing_ok=True)
        names = {_file_name(sha256, *file) for sha256 in self.kept for file in FILES}
        for shard in sorted(self.folder.glob("[0-9a-f][0-9a-f]")):
            for name in set(os.listdir(shard)) - names:
                found = shard / name
                ours = _KEPT.fullmatch(name) or name.startswith(".part-")
                if ours and time.time_ns() - found.stat().st_mtime_ns > _ORPHANED_NS:
                    found.unlink(missing_ok=True)


def _file_name(sha256: str, longest: int, kind: str) -> str:
    return f"{sha256[:32]}-{longest}.{kind}"


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
