"""A file that is no usable photo is named with its cause and its fix, and never stops the others or the program."""

from __future__ import annotations

import os
import struct
import zlib
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from combobook.picture import picture
from combobook.picture.develop import Developed, develop
from combobook.picture.faults import CODES
from combobook.picture.store import Store
from combobook.problems import Problem, printed
from tests.picture.photographs import coded, developed, plain, quarters, studio


def png_of(width: int, height: int) -> bytes:
    """A PNG that says it has so many pixels and holds a handful (W3C PNG, third edition, section 11.2.1)."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0))
    return b"\x89PNG\r\n\x1a\n" + head + chunk(b"IDAT", zlib.compress(bytes(9999))) + chunk(b"IEND", b"")


PHOTO = coded(quarters(), "JPEG")
TOO_LARGE = (
    "photos/{name}:1:1: error: the photo is too large: {pixels} more than is read, 80 megapixels and 100 MB"
    "  [photo-too-large]\n"
    "help: make it smaller in a photo program; nothing over 1200 pixels a side is shown anyway"
)
DAMAGED = (
    "photos/{name}:1:1: error: the picture is damaged or was cut short  [photo-damaged]\n"
    "help: copy it from the phone or camera again; if it opens in a photo program, save it anew from there"
)
NO_PICTURE = (
    "photos/{name}:1:1: error: the file's name says it is a picture ({suffix}), but what is in it is no JPEG, PNG, "
    "WebP or HEIC  [photo-unreadable]\n"
    "help: save the picture as JPEG and put that file in its place"
)
EMPTY = (
    "photos/{name}:1:1: error: the photo is an empty file  [photo-empty]\n"
    "help: copy it from the phone or camera again"
)
UNUSABLE = {
    "nothing in it": ("a.jpg", b"", EMPTY),
    "a JPEG cut short": ("a.jpg", PHOTO[: len(PHOTO) // 2], DAMAGED),
    "a JPEG's first bytes": ("a.jpg", PHOTO[:20], DAMAGED),
    "a PNG cut short": ("a.png", coded(quarters(), "PNG")[:200], DAMAGED),
    "a WebP cut short": ("a.webp", coded(quarters(), "WEBP")[:90], DAMAGED),
    "a HEIC cut short": ("a.heic", coded(quarters(), "HEIF")[:300], DAMAGED),
    "words": ("a.jpg", b"Dear Ms R, here is my tile", NO_PICTURE.replace("{suffix}", ".jpg")),
    "words under a phone's suffix": ("A.HEIC", b"Dear Ms R, here is my tile", NO_PICTURE.replace("{suffix}", ".HEIC")),
    "a GIF": ("a.png", coded(quarters(), "GIF"), NO_PICTURE.replace("{suffix}", ".png")),
    "a drawing in SVG": ("a.webp", b"<svg xmlns='http://www.w3.org/2000/svg'/>", NO_PICTURE.replace("{suffix}", ".webp")),
    "just too many pixels": ("a.png", png_of(10_000, 8_001), TOO_LARGE.replace("{pixels}", "10000 × 8001 pixels are")),
    "far too many pixels": ("a.png", png_of(60_000, 60_000), TOO_LARGE.replace("{pixels}", "its pixels are")),
    "as many pixels as are read, but not there": ("a.png", png_of(10_000, 8_000), DAMAGED),
}


@pytest.mark.parametrize("what", UNUSABLE)
def test_a_file_that_is_no_photo_gives_one_located_problem_and_no_picture(tmp_path: Path, what: str) -> None:
    name, data, text = UNUSABLE[what]
    pictures, problems = developed(tmp_path, {name: data, "good.jpg": PHOTO})
    assert list(pictures) == ["good.jpg"]
    assert [printed(p, {}) for p in problems] == [text.replace("{name}", name)]


def test_more_bytes_than_are_read_are_not_read(tmp_path: Path) -> None:
    folder = studio(tmp_path, {"a.jpg": PHOTO})
    os.truncate(folder / "photos" / "a.jpg", 100_000_001)
    pictures, problems = picture(folder, ["a.jpg"], tmp_path / "cache")
    assert (pictures, [printed(p, {}) for p in problems]) == (
        {},
        [TOO_LARGE.replace("{name}", "a.jpg").replace("{pixels}", "101 MB are")],
    )


USABLE = {
    "a PNG under a JPEG's name": (
        "a.jpg",
        coded(quarters(), "PNG"),
        "photos/a.jpg:1:1: warning: the file's name says JPEG, but what is in it is PNG; it is shown all the same"
        "  [photo-mislabelled]\nhelp: rename it to `a.png`, there and in what names it",
    ),
    "a phone's HEIC renamed": (
        "b.JPEG",
        coded(quarters(), "HEIF"),
        "photos/b.JPEG:1:1: warning: the file's name says JPEG, but what is in it is HEIC; it is shown all the same"
        "  [photo-mislabelled]\nhelp: rename it to `b.heic`, there and in what names it",
    ),
    "a single pixel": (
        "c.png",
        coded(plain((1, 2, 3), size=(1, 1)), "PNG"),
        "photos/c.png:1:1: warning: the picture is only 1 × 1 pixels; under 160 a glaze cannot be judged from it"
        "  [photo-small]\nhelp: use the original and not a preview; it is never enlarged",
    ),
}


@pytest.mark.parametrize("what", USABLE)
def test_an_odd_photo_is_shown_with_a_warning_each_time_kept_or_not(tmp_path: Path, what: str) -> None:
    name, data, text = USABLE[what]
    for _ in ("made", "kept"):
        pictures, problems = developed(tmp_path, {name: data})
        assert list(pictures) == [name]
        assert [printed(p, {}) for p in problems] == [text]


def link_out(photos: Path) -> None:
    (photos.parent.parent / "private.jpg").write_bytes(PHOTO)
    (photos / "a.jpg").symlink_to("../../private.jpg")


def link_to_an_entry(photos: Path) -> None:
    (photos.parent / "studio.jpg").write_bytes(PHOTO)
    (photos / "a.jpg").symlink_to(photos.parent / "studio.jpg")


def photos_is_a_link(photos: Path) -> None:
    away = photos.parent.parent / "away"
    photos.rename(away)
    photos.symlink_to(away)
    (away / "a.jpg").write_bytes(PHOTO)


def circle(photos: Path) -> None:
    (photos / "a.jpg").symlink_to("a.jpg")


def pipe(photos: Path) -> None:
    os.mkfifo(photos / "a.jpg")


OUTSIDE = (
    "photos/a.jpg:1:1: error: the photo is a link that leads out of photos/, where nothing is read  [photo-outside]\n"
    "help: put the picture itself into photos/"
)
MISSING = (
    "photos/a.jpg:1:1: error: no such file in photos/  [photo-missing]\n"
    "help: put the file there, or take its name out of the entries that show it"
)


@pytest.mark.parametrize(
    ("arrange", "text"),
    [
        (link_out, OUTSIDE),
        (link_to_an_entry, OUTSIDE),
        (photos_is_a_link, OUTSIDE),
        (circle, MISSING),
        (pipe, MISSING),
        (lambda photos: (photos / "a.jpg").mkdir(), MISSING),
        (lambda photos: None, MISSING),
    ],
)
def test_only_real_files_of_photos_are_read(tmp_path: Path, arrange: Callable[[Path], None], text: str) -> None:
    folder = studio(tmp_path, {})
    arrange(folder / "photos")
    pictures, problems = picture(folder, ["a.jpg"], tmp_path / "cache")
    assert (pictures, [printed(p, {}) for p in problems]) == ({}, [text])


@pytest.mark.parametrize("name", ["../studio.yaml", "/etc/passwd", "..", ".", "", "in/a.jpg", "..\\a.jpg", "a\0.jpg"])
def test_a_name_that_is_a_path_names_no_photo(tmp_path: Path, name: str) -> None:
    folder = studio(tmp_path, {"a.jpg": PHOTO})
    (folder / "photos" / "in").mkdir()
    (folder / "photos" / "in" / "a.jpg").write_bytes(PHOTO)
    pictures, problems = picture(folder, [name], tmp_path / "cache")
    assert (pictures, [p.code for p in problems]) == ({}, ["photo-missing"])


def test_a_file_of_no_known_kind_is_not_opened(tmp_path: Path) -> None:
    pictures, problems = developed(tmp_path, {"a.tiff": PHOTO})
    assert (pictures, [printed(p, {}) for p in problems]) == (
        {},
        [NO_PICTURE.replace("{name}", "a.tiff").replace("{suffix}", ".tiff")],
    )


def test_a_link_inside_photos_is_followed_and_a_folder_reached_by_a_link_is_read(tmp_path: Path) -> None:
    folder = studio(tmp_path, {"a.jpg": PHOTO})
    (folder / "photos" / "b.jpg").symlink_to("a.jpg")
    (tmp_path / "linked").symlink_to(folder)
    pictures, problems = picture(tmp_path / "linked", ["b.jpg", "a.jpg"], tmp_path / "cache")
    assert (list(pictures), problems) == (["a.jpg", "b.jpg"], ())


def test_a_photo_that_may_not_be_read_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def closed(self: Store, photo: Path) -> tuple[bytes, str]:
        raise PermissionError(13, "Permission denied", str(photo))  # a test run as root may read anything

    monkeypatch.setattr(Store, "contents", closed)
    pictures, problems = developed(tmp_path, {"a.jpg": PHOTO})
    assert (pictures, [printed(p, {}) for p in problems]) == (
        {},
        [
            "photos/a.jpg:1:1: error: the photo cannot be read: Permission denied  [photo-closed]\n"
            "help: give the file to the one who publishes: its permissions keep it closed"
        ],
    )


def test_a_cache_that_cannot_be_written_is_named(tmp_path: Path) -> None:
    (tmp_path / "cache").write_text("a file where a folder is due")
    pictures, problems = developed(tmp_path, {"a.jpg": PHOTO})
    assert (pictures, [printed(p, {}) for p in problems]) == (
        {},
        [
            f"photos/a.jpg:1:1: error: the pictures made from this photo cannot be kept in `{tmp_path}/cache/pictures`: "
            "Not a directory  [picture-cache]\n"
            "help: make room there, or let the one who publishes write there"
        ],
    )


def test_every_code_of_this_stage_is_shown_here() -> None:
    text = Path(__file__).read_text(encoding="utf-8")
    assert [code for code in CODES if f"[{code}]" not in text] == []


WHOLE = {
    "a.jpg": coded(quarters(64, 48), "JPEG", exif=b"Exif\0\0MM\0*\0\0\0\x08\0\0\0\0\0\0"),
    "a.png": coded(quarters(64, 48), "PNG"),
    "a.webp": coded(quarters(64, 48), "WEBP"),
    "a.heic": coded(quarters(64, 48), "HEIF"),
}


@pytest.mark.filterwarnings("ignore")  # the stage silences Pillow's warnings around all photos; here is only one
@settings(max_examples=120, deadline=None, derandomize=True)
@given(data=st.data())
def test_whatever_a_bad_card_did_to_a_file_it_is_a_picture_or_a_problem(data: st.DataObject) -> None:
    name = data.draw(st.sampled_from(sorted(WHOLE)))
    whole = WHOLE[name]
    start = data.draw(st.integers(0, len(whole) - 1))
    spoilt = whole[:start] + data.draw(st.binary(max_size=12)) + whole[start + data.draw(st.integers(0, 40)) :]
    made = develop(name, spoilt)
    assert isinstance(made, Developed) or (isinstance(made, Problem) and made.is_error and made.code in CODES)


def test_a_photo_cut_short_is_no_picture_although_a_sheet_was_made_before(tmp_path: Path) -> None:
    """WeasyPrint, once imported, sets this for the whole process; `show` publishes again and again in one."""
    from PIL import ImageFile

    ImageFile.LOAD_TRUNCATED_IMAGES = True
    folder = studio(tmp_path, {"a.jpg": PHOTO[: len(PHOTO) // 2]})
    pictures, problems = picture(folder, ["a.jpg"], tmp_path / "cache")
    assert dict(pictures) == {}
    assert [p.code for p in problems] == ["photo-damaged"]
