"""Three sizes, never enlarged, with nothing in them but pixels."""

from __future__ import annotations

import io
import json
import subprocess
from pathlib import Path

import pytest
from PIL import Image, ImageDraw

from tests.picture.photographs import (
    close,
    coded,
    colour_at,
    developed,
    one,
    plain,
    quarters,
    rgb_profile,
    shown,
    turned_exif,
)


@pytest.mark.parametrize(
    ("own", "page", "card", "thumb"),
    [
        ((2400, 1800), (1200, 900), (480, 360), (160, 120)),
        ((1800, 2400), (900, 1200), (360, 480), (120, 160)),
        ((1200, 1200), (1200, 1200), (480, 480), (160, 160)),
        ((500, 400), (500, 400), (480, 384), (160, 128)),
        ((200, 160), (200, 160), (200, 160), (160, 128)),
    ],
)
def test_each_size_fits_its_box_and_none_is_enlarged(
    tmp_path: Path, own: tuple[int, int], page: tuple[int, int], card: tuple[int, int], thumb: tuple[int, int]
) -> None:
    made = one(tmp_path, "a.jpg", coded(quarters(*own), "JPEG"))
    assert [(f.width, f.height) for f in made.sizes.values()] == [page, card, thumb]
    assert [shown(made, size).size for size in ("page", "card", "thumb")] == [page, card, thumb]


def test_a_long_thin_strip_keeps_at_least_a_pixel_each_way(tmp_path: Path) -> None:
    pictures, problems = developed(tmp_path, {"a.png": coded(plain((9, 9, 9), size=(5000, 1)), "PNG")})
    assert [(f.width, f.height) for f in pictures["a.png"].sizes.values()] == [(1200, 1), (480, 1), (160, 1)]
    assert [p.code for p in problems] == ["photo-small"]


def test_a_drawing_is_known_by_its_name(tmp_path: Path) -> None:
    data = coded(quarters(), "PNG")
    pictures, problems = developed(tmp_path, {"drawing-b117.png": data, "b117-drawing-.png": data})
    assert problems == ()
    assert {name: made.drawing for name, made in pictures.items()} == {
        "drawing-b117.png": True,
        "b117-drawing-.png": False,
    }


def test_paths_name_the_contents_and_not_the_file(tmp_path: Path) -> None:
    data = coded(quarters(), "PNG")
    pictures, _ = developed(tmp_path, {"ana-in-room-4.png": data, "b.png": data, "c.png": coded(plain((1, 1, 1)), "PNG")})
    a, b, c = (pictures[name] for name in ("ana-in-room-4.png", "b.png", "c.png"))
    assert a.sizes == b.sizes
    assert {f.path for f in a.sizes.values()}.isdisjoint(f.path for f in c.sizes.values())
    for file in a.sizes.values():
        stem = file.path.removeprefix("pictures/").removesuffix(".jpg")
        hexes, longest = stem.split("-")
        assert len(hexes) == 16 and set(hexes) <= set("0123456789abcdef") and longest in ("1200", "480", "160")


def test_the_colours_of_a_photo_are_shrunk_by_averaging(tmp_path: Path) -> None:
    lines = Image.new("RGB", (2400, 2400), "white")
    for x in range(0, 2400, 2):
        ImageDraw.Draw(lines).line((x, 0, x, 2400), fill="black")
    seen = shown(one(tmp_path, "a.png", coded(lines, "PNG")), "thumb").convert("L")
    low, high = seen.getextrema()
    assert 110 < low <= high < 145


XMP = b'<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"/></x:xmpmeta>'


def with_everything(kind: str) -> bytes:
    """A photo with GPS, owner, serial number, comment, XMP, profile and resolution."""
    exif = Image.Exif()
    exif[0x010F], exif[0x013B], exif[0x9286] = "Camera 12345", "A. Student", "in room 4"
    exif.get_ifd(0x8825)[1] = "N"
    exif.get_ifd(0x8825)[2] = (41.0, 52.0, 3.0)
    profile = rgb_profile(((0.436, 0.222, 0.014), (0.385, 0.717, 0.097), (0.143, 0.061, 0.714)), 2.2)
    options: dict[str, object] = {"exif": exif.tobytes(), "icc_profile": profile, "xmp": XMP}
    if kind == "JPEG":
        options |= {"comment": b"Ana's mug", "dpi": (300, 300)}
    return coded(quarters(), kind, **options)


@pytest.mark.parametrize(("kind", "name"), [("JPEG", "a.jpg"), ("PNG", "a.png"), ("WEBP", "a.webp"), ("HEIF", "a.heic")])
def test_nothing_but_pixels_is_left_by_the_jpegs_own_markers(tmp_path: Path, kind: str, name: str) -> None:
    for file in one(tmp_path, name, with_everything(kind)).sizes.values():
        assert set(markers(file.data)) <= {0xE0, 0xDB, 0xC0, 0xC4, 0xDA}


def markers(data: bytes) -> list[int]:
    """The segments before the pixels, by ITU-T T.81 annex B."""
    at, found = 2, []
    while data[at] == 0xFF:
        found.append(data[at + 1])
        if data[at + 1] == 0xDA:
            return found
        at += 2 + int.from_bytes(data[at + 2 : at + 4], "big")
    raise AssertionError("no start of scan")


@pytest.mark.parametrize(("kind", "name"), [("JPEG", "a.jpg"), ("PNG", "a.png"), ("WEBP", "a.webp"), ("HEIF", "a.heic")])
def test_exiftool_finds_the_photos_secrets_before_and_none_after(tmp_path: Path, kind: str, name: str) -> None:
    made = one(tmp_path, name, with_everything(kind))
    before = exif_groups(tmp_path / "content" / "photos" / name)
    assert {"EXIF", "ICC_Profile"} <= before, "the test's photo has none, so that it shows nothing"
    for file in made.sizes.values():
        assert exif_groups(file.stored) == {"SourceFile", "ExifTool", "File", "JFIF", "Composite"}
    for file in made.webp.values():
        assert exif_groups(file.stored) == {"SourceFile", "ExifTool", "File", "RIFF", "Composite"}


def test_what_an_agency_writes_into_a_photo_and_its_hidden_thumbnail_go_too(tmp_path: Path) -> None:
    """Bylines, captions, keywords and a preview of the uncropped picture, written by exiftool itself."""
    photo, preview = tmp_path / "photo.jpg", tmp_path / "preview.jpg"
    photo.write_bytes(coded(quarters(), "JPEG"))
    preview.write_bytes(coded(plain((200, 30, 30)), "JPEG"))
    says = ["-IPTC:By-line=A. Student", "-IPTC:City=Room 4", "-XMP-dc:Creator=A. Student", "-XMP-photoshop:City=Room 4",
            "-EXIF:UserComment=hers", "-Comment=hers", f"-ThumbnailImage<={preview}"]  # fmt: skip
    subprocess.run(["exiftool", "-q", "-overwrite_original", *says, str(photo)], check=True, timeout=60)
    assert {"IPTC", "XMP", "EXIF"} <= exif_groups(photo)
    assert b"Student" in photo.read_bytes() and b"Room" in photo.read_bytes()
    made = one(tmp_path, "a.jpg", photo.read_bytes())
    for file in (*made.sizes.values(), *made.webp.values()):
        assert exif_groups(file.stored) <= {"SourceFile", "ExifTool", "File", "JFIF", "RIFF", "Composite"}
        assert b"Student" not in file.data and b"Room" not in file.data


@pytest.mark.parametrize("size", ["page", "card", "thumb"])
def test_the_webp_shows_what_the_jpeg_shows_in_fewer_bytes(tmp_path: Path, size: str) -> None:
    made = one(tmp_path, "a.png", coded(quarters(1600, 1200), "PNG"))
    jpeg, webp = made.sizes[size], made.webp[size]
    image = Image.open(io.BytesIO(webp.data))
    assert (image.format, image.mode, image.size) == ("WEBP", "RGB", (jpeg.width, jpeg.height))
    assert (webp.path, webp.width, webp.height) == (jpeg.path.replace(".jpg", ".webp"), jpeg.width, jpeg.height)
    for across, down in ((0.2, 0.2), (0.8, 0.2), (0.2, 0.8), (0.8, 0.8)):
        assert close(colour_at(image, across, down), colour_at(shown(made, size), across, down))
    assert len(webp.data) < len(jpeg.data)


def exif_groups(path: Path) -> set[str]:
    told = subprocess.run(["exiftool", "-j", "-G", "-a", str(path)], capture_output=True, check=True, timeout=60)
    return {key.split(":")[0] for key in json.loads(told.stdout)[0]}


def test_a_turned_photo_does_not_say_that_it_should_be_turned_again(tmp_path: Path) -> None:
    assert shown(one(tmp_path, "a.jpg", coded(quarters(), "JPEG", exif=turned_exif(6)))).getexif() == {}
