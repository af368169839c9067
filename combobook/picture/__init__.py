"""The picture stage: photographs of photos/ turned upright, shrunk, stripped of all metadata, and kept by content."""

from __future__ import annotations

import hashlib
import warnings
from collections.abc import Iterable, Mapping
from concurrent.futures import ThreadPoolExecutor
from functools import partial
from pathlib import Path, PurePath

from PIL import ImageFile

from combobook.picture.faults import fault
from combobook.picture.found import found
from combobook.picture.kept import FILES, Kept
from combobook.picture.settings import MADE_WITH, SETTINGS
from combobook.picture.store import Store
from combobook.picture.whose import another_tile
from combobook.pictures import DRAWING_PREFIX, FEW_PIXELS, FORMATS, MOST_BYTES, SIZES, Picture, PictureFile
from combobook.problems import Problem, in_order

__all__ = ["another_tile", "picture"]
_WORKERS = 2


def picture(
    folder: Path, names: Iterable[str], cache: Path
) -> tuple[Mapping[str, Picture], tuple[Problem, ...]]:
    """Each named photo of `folder`/photos/, ready to be shown, by name; those with an error are left out.

    Made pictures are kept in `cache` and used again while the photo's contents are the same; those that no photo
    needs are removed. Nothing outside photos/ is read, whatever a link says. Never raises for what is in a file.
    """
    wanted = sorted(set(names))
    photos = folder.resolve() / "photos"
    store = Store(cache, MADE_WITH)
    # WeasyPrint, once imported, lets Pillow fill truncated pictures with grey for the whole process.
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    with warnings.catch_warnings():
        # Pillow warns of broken EXIF and of many pixels; both are judged here, and a warning would end up on the screen
        warnings.simplefilter("ignore")
        with ThreadPoolExecutor(_WORKERS) as workers:
            results = list(workers.map(partial(_one, photos, store), wanted))
    pictures: dict[str, Picture] = {}
    problems: list[Problem] = []
    for name, (made, said) in zip(wanted, results, strict=True):
        problems += said
        if made is not None:
            sha256, kept = made
            pictures[name] = _picture(name, sha256, kept, store)
    try:
        store.close(photos, frozenset(photos / name for name in wanted))
    except OSError as error:
        problems += [fault("picture-cache", name, cache=store.folder, why=error.strerror) for name in wanted[:1]]
    return pictures, in_order(problems)


def _one(photos: Path, store: Store, name: str) -> tuple[tuple[str, Kept] | None, tuple[Problem, ...]]:
    """One photo: found, read if it changed, developed if nothing is kept of these contents."""
    path = found(photos, name)
    if isinstance(path, Problem):
        return None, (path,)
    try:
        sha256 = store.known_contents(path)
        kept = store.find(sha256) if sha256 is not None else None
        if sha256 is None or kept is None:
            made = _developed(path, store, name)
            if isinstance(made, Problem):
                return None, (made,)
            sha256, kept = made
    except OSError as error:
        return None, (fault("photo-closed", name, why=error.strerror or "it cannot be opened"),)
    return (sha256, kept), _remarks(name, kept)


def _developed(path: Path, store: Store, name: str) -> tuple[str, Kept] | Problem:
    """Reads the photo and makes its sizes, unless they are kept. Raises OSError where the photo cannot be read."""
    from combobook.picture.develop import develop

    size = path.stat().st_size
    if size == 0:
        return fault("photo-empty", name)
    if size > MOST_BYTES:
        return fault("photo-too-large", name, pixels=f"{-(-size // 1_000_000)} MB are")
    data, sha256 = store.contents(path)
    kept = store.find(sha256)
    if kept is not None:
        return sha256, kept
    made = develop(name, data)
    if isinstance(made, Problem):
        return made
    try:
        files = [(s.width, s.height, data) for s in made.sizes for data in (s.jpeg, s.webp)]
        source = (made.format, made.width, made.height)
        return sha256, store.keep(sha256, source, files, (made.tag, made.tile, made.colour))
    except OSError as error:
        return fault("picture-cache", name, cache=store.folder, why=error.strerror)


def _remarks(name: str, kept: Kept) -> tuple[Problem, ...]:
    """What is odd about a photo that can be shown all the same; said again whether or not it was kept."""
    remarks = []
    suffix = PurePath(name).suffix
    if FORMATS.get(suffix.lower()) != kept.format:
        better = next(s for s, kind in FORMATS.items() if kind == kept.format)
        said, kind = FORMATS.get(suffix.lower(), suffix), kept.format
        remarks.append(
            fault("photo-mislabelled", name, said=_SAID[said], kind=_SAID[kind], better=PurePath(name).stem + better)
        )
    if min(kept.width, kept.height) < FEW_PIXELS:
        remarks.append(fault("photo-small", name, width=kept.width, height=kept.height))
    return tuple(remarks)


_SAID = {"JPEG": "JPEG", "PNG": "PNG", "WEBP": "WebP", "HEIF": "HEIC"}


def _picture(name: str, sha256: str, kept: Kept, store: Store) -> Picture:
    """The picture under its public path, which follows from the photo's contents and our settings alone."""
    public = hashlib.sha256(f"{SETTINGS} {sha256}".encode()).hexdigest()[:16]
    names = {longest: size for size, longest in SIZES.items()}
    made: dict[str, dict[str, PictureFile]] = {"jpg": {}, "webp": {}}
    for (longest, kind), file in zip(FILES, kept.files, strict=True):
        made[kind][names[longest]] = PictureFile(
            path=f"pictures/{public}-{longest}.{kind}",
            width=file.width,
            height=file.height,
            stored=store.path(sha256, longest, kind),
        )
    return Picture(
        name=name,
        drawing=name.startswith(DRAWING_PREFIX),
        colour=kept.colour,
        tag=kept.tag,
        tile=kept.tile,
        sizes=made["jpg"],
        webp=made["webp"],
    )
