"""Photographs of tiles: told by their tags, else by their names; copied with nothing in them but the picture."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from PIL import Image
from pyzbar import pyzbar

from combobook.take_in import take_in
from tests.picture.photographs import coded, plain
from tests.picture.scenes import SLANTED, Scene, camera, photograph
from tests.take_in.classes import contents, errors, outside, rows_of, said, studio

GREEN, RUST = (45.0, -30.0, 20.0), (40.0, 35.0, 30.0)
BRUSHED = "tile,base,base coats,top,top coats,clay,firing,kiln shelf,stood,ran,faults\n" + "".join(
    f"{mark},FR,2,PL,1,,,,,,\n" for mark in ("C1", "C2", "C3", "D-4")
)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return studio(tmp_path, logs__autumn=BRUSHED)


def pictures(tmp_path: Path, files: dict[str, bytes]) -> Path:
    (tmp_path / "phone").mkdir(exist_ok=True)
    for name, data in files.items():
        (tmp_path / "phone" / name).write_bytes(data)
    return tmp_path / "phone"


def from_a_phone(scene: Scene) -> bytes:
    """On its side, as the file says, with a place and a maker in it."""
    exif = Image.Exif()
    exif[0x0112], exif[0x010F] = 6, "A telephone"
    exif.get_ifd(0x8825)[1] = "N"
    return coded(camera(scene).transpose(Image.Transpose.ROTATE_90), "JPEG", exif=exif.tobytes(), comment=b"Maria")


def test_a_picture_is_its_tags_tile_whatever_its_name_says(folder: Path, tmp_path: Path) -> None:
    phone = pictures(tmp_path, {"c2.jpg": photograph(Scene(glaze=GREEN, tag="C1", view=SLANTED))})
    done = take_in(None, folder, phone)
    assert done.photos is not None and (done.photos.by_tag, done.photos.by_name, done.photos.unmatched) == (1, 0, ())
    assert rows_of(folder / "logs/2026-autumn-1.csv") == [
        {"tile": "C1", "base": "ferry-rust", "base coats": "2", "top": "pond-lantern", "top coats": "1", "photo": "c1.jpg"}
    ]
    assert (said(done), errors(folder)) == ([], [])


def test_the_copy_is_upright_and_bare_and_another_reader_reads_its_tag(folder: Path, tmp_path: Path) -> None:
    take_in(None, folder, pictures(tmp_path, {"IMG_20261001.jpg": from_a_phone(Scene(glaze=RUST, tag="D-4"))}))
    data = (folder / "photos/d-4.jpg").read_bytes()
    with Image.open(io.BytesIO(data)) as image:
        assert (image.format, image.size, dict(image.getexif())) == ("JPEG", camera(Scene(glaze=RUST)).size, {})
        assert set(image.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
        # zbar wants larger modules than ours.
        twice = image.convert("L").resize((image.width * 2, image.height * 2), Image.Resampling.BICUBIC)
        assert [code.data for code in pyzbar.decode(twice)] == [b"D-4"]
    assert [word for word in (b"Exif", b"telephone", b"Maria", b"GPS") if word in data] == []


@pytest.mark.parametrize("name", ["c2.jpg", "C2.JPG", "tile C2 (shelf).png", "2026-10-01_c2_front.webp", "c-2.jpg"])
def test_without_a_tag_a_picture_is_told_by_its_name(name: str, folder: Path, tmp_path: Path) -> None:
    kind = {"jpg": "JPEG", "png": "PNG", "webp": "WEBP"}[name.rpartition(".")[2].lower()]
    done = take_in(None, folder, pictures(tmp_path, {name: coded(plain((90, 60, 40)), kind)}))
    assert done.photos is not None and (done.photos.by_name, done.photos.unmatched) == (1, ())
    assert [(r["tile"], r["photo"]) for r in rows_of(folder / "logs/2026-autumn-1.csv")] == [("C2", "c2.jpg")]


def test_what_is_nobodys_is_listed_and_shown_on_a_sheet(folder: Path, tmp_path: Path) -> None:
    (folder / "editions").mkdir()
    (folder / "editions/withdrawn.csv").write_text("tile,date\nC3,2026-10-20\n")
    clay = coded(plain((90, 60, 40)), "JPEG")
    files = {"IMG_2041.jpg": clay, "c1 and c2.jpg": clay, "c3.jpg": clay, "broken.jpg": b"no picture", "z.jpg":
             photograph(Scene(glaze=GREEN, tag="Z99"))}  # fmt: skip
    done = take_in(None, folder, pictures(tmp_path, files))
    assert done.photos is not None
    assert {each.name: each.why for each in done.photos.unmatched} == {
        "IMG_2041.jpg": "no tag can be read in it, and its name holds no tile's mark",
        "c1 and c2.jpg": "no tag can be read in it, and its name fits C1 and C2",
        "c3.jpg": "its name says C3, a tile that was withdrawn",
        "broken.jpg": "the file's name says it is a picture (.jpg), but what is in it is no JPEG, PNG, WebP or HEIC",
        "z.jpg": "its tag says Z99, and no log has that tile",
    }
    page = (tmp_path / "phone-unmatched.html").read_text()
    assert [name for name in files if f"<b>{name}</b>" not in page] == []
    assert page.count("data:image/jpeg;base64,") == 4
    assert not (folder / "photos").exists() and [p for p in contents(folder) if p.startswith("logs/")] == ["logs/autumn.csv"]


def test_a_second_picture_of_a_tile_is_copied_beside_the_first_and_said(folder: Path, tmp_path: Path) -> None:
    one, two = (coded(plain((shade, 60, 40)), "JPEG") for shade in (90, 120))
    done = take_in(None, folder, pictures(tmp_path, {"c1 a.jpg": one, "c1 b.jpg": two}))
    assert done.photos is not None and done.photos.beside == (("c1-2.jpg", "C1"),)
    assert sorted(p.name for p in (folder / "photos").iterdir()) == ["c1-2.jpg", "c1.jpg"]
    assert [r["photo"] for r in rows_of(folder / "logs/2026-autumn-1.csv")] == ["c1.jpg"]


def test_a_picture_that_is_there_is_never_written_over(folder: Path, tmp_path: Path) -> None:
    (folder / "photos").mkdir()
    (folder / "photos/c1.jpg").write_bytes(coded(plain((1, 2, 3)), "JPEG"))
    theirs = (folder / "photos/c1.jpg").read_bytes()
    take_in(None, folder, pictures(tmp_path, {"c1.jpg": coded(plain((90, 60, 40)), "JPEG")}))
    assert (folder / "photos/c1.jpg").read_bytes() == theirs
    assert [r["photo"] for r in rows_of(folder / "logs/2026-autumn-1.csv")] == ["c1-2.jpg"]


def test_a_second_time_adds_nothing(folder: Path, tmp_path: Path) -> None:
    clay = coded(plain((90, 60, 40)), "JPEG")
    phone = pictures(tmp_path, {"c1.jpg": clay, "c2.jpg": clay, "other.jpg": clay})
    take_in(None, folder, phone)
    before, beside = contents(folder), sorted(p.name for p in tmp_path.iterdir())
    done = take_in(None, folder, phone)
    assert done.photos is not None and (done.photos.known, dict(done.photos.copies)) == (2, {})
    assert contents(folder) == before and sorted(p.name for p in tmp_path.iterdir()) == beside


def test_a_drawing_stays_marked_as_one(folder: Path, tmp_path: Path) -> None:
    take_in(None, folder, pictures(tmp_path, {"drawing-c1.jpg": coded(plain((90, 60, 40)), "JPEG")}))
    assert [p.name for p in (folder / "photos").iterdir()] == ["drawing-c1.jpg"]


def test_a_log_and_its_pictures_come_in_together(folder: Path, tmp_path: Path) -> None:
    clay = coded(plain((90, 60, 40)), "JPEG")
    phone = pictures(tmp_path, {"IMG_7.jpg": clay, "e2.jpg": clay})
    log = outside(tmp_path, "tile,base,base coats,photo\nE1,FR,2,IMG_7.jpg\nE2,FR,2,\nE3,FR,2,gone.jpg\n")
    done = take_in(log, folder, phone)
    assert said(done) == ["4:9 unknown-photo"]
    assert [(r["tile"], r["photo"]) for r in rows_of(folder / "logs/2026-autumn-1.csv")] == [("E1", "e1.jpg"), ("E2", "e2.jpg")]
    assert errors(folder) == []
