"""A photograph that shows its tile's tag is seen in fair light; one that does not is shown as it was taken."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image

from combobook.colours import Lab, TileColour, difference
from combobook.picture.balance import PAPER, can_balance, encoded, linear
from combobook.pictures import Picture
from tests.picture.photographs import coded, developed, one, shown, turned_exif
from tests.picture.scenes import (
    CASTS,
    DAY,
    PX,
    SLANTED,
    STRAIGHT,
    TAG_MM,
    WIDE_MM,
    LabTriple,
    Light,
    Scene,
    camera,
    photograph,
)

GLAZES: dict[str, LabTriple] = {
    "deep blue-green": (34, -22, -8),
    "amber": (62, 18, 52),
    "red-brown": (36, 28, 24),
    "celadon": (72, -12, 10),
    "white": (90, 0, 4),
    "night blue": (26, 4, -30),
    "black": (10, 0, 0),
}


def seen(tmp_path: Path, scene: Scene) -> TileColour:
    made = one(tmp_path, "tile.jpg", photograph(scene))
    assert made.colour is not None
    return made.colour


@pytest.mark.parametrize("view", [STRAIGHT, SLANTED], ids=["from above", "from a slant"])
@pytest.mark.parametrize("cast", CASTS)
def test_balancing_brings_every_glaze_near_the_truth_and_far_nearer_than_before(
    tmp_path: Path, cast: str, view: tuple[tuple[float, float], ...]
) -> None:
    """Within 5 of the truth, and at least 3 nearer than as photographed, in CIEDE2000."""
    for name, truth in GLAZES.items():
        light = CASTS[cast]
        after = seen(tmp_path, Scene(glaze=truth, light=light, view=view))
        before = seen(tmp_path, Scene(glaze=truth, light=light, view=view, tag=""))
        assert (after.balanced, before.balanced) == (True, False), name
        off = difference(after.main, Lab(*truth))
        assert off <= 5, name
        assert off <= difference(before.main, Lab(*truth)) - 3, name


def test_the_picture_that_is_shown_is_balanced_too(tmp_path: Path) -> None:
    made = one(tmp_path, "tile.jpg", photograph(Scene(glaze=(40, 0, -20), light=CASTS["a warm bulb"])))
    image = shown(made)
    across, down = (TAG_MM[0] + 55) / WIDE_MM, (TAG_MM[1] + 8) / 170
    paper = image.getpixel((int(across * image.width), int(down * image.height)))
    assert paper == pytest.approx(PAPER, abs=5)


@pytest.mark.parametrize("mark", ["B117", "A1", "ABCD-12345", "Z-7"])
def test_the_tag_says_which_tile_it_is_and_how_large(tmp_path: Path, mark: str) -> None:
    made = one(tmp_path, "tile.jpg", photograph(Scene(glaze=(40, 0, -20), tag=mark)))
    assert made.tag is not None
    assert (made.tag.mark, made.tag.pixels_per_mm) == (mark, pytest.approx(PX, rel=0.02))


@pytest.mark.parametrize("orientation", [3, 6, 8])
def test_a_photo_taken_sideways_is_read_and_balanced_once_upright(tmp_path: Path, orientation: int) -> None:
    turns = {3: Image.Transpose.ROTATE_180, 6: Image.Transpose.ROTATE_90, 8: Image.Transpose.ROTATE_270}
    scene = camera(Scene(glaze=GLAZES["celadon"], light=CASTS["blue shade"]))
    data = coded(scene.transpose(turns[orientation]), "JPEG", quality=92, exif=turned_exif(orientation))
    made = one(tmp_path, "tile.jpg", data)
    assert made.colour is not None and made.colour.balanced
    assert difference(made.colour.main, Lab(*GLAZES["celadon"])) < 5


def assert_as_photographed(made: Picture) -> None:
    assert made.colour is not None and not made.colour.balanced


@pytest.mark.parametrize(
    ("why", "light"),
    [("the paper is burnt out, so nobody knows how bright it was", (1.3, 1.2, 1.1)), ("it is nearly dark", (0.02, 0.02, 0.02))],
)
def test_a_paper_that_does_not_tell_the_light_balances_nothing(tmp_path: Path, why: str, light: Light) -> None:
    assert_as_photographed(one(tmp_path, "tile.jpg", photograph(Scene(glaze=(40, 0, -20), light=light))))


def test_another_code_in_the_picture_is_no_tag(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    import segno

    code = segno.make_qr("https://studio.example/b117", error="h")
    scene = camera(Scene(glaze=(40, 0, -20), tag="", light=CASTS["a warm bulb"]))
    side = code.symbol_size(border=4)[0]
    square = Image.new("RGB", (side, side), (255, 200, 140))
    for down, row in enumerate(code.matrix):
        for across, dark in enumerate(row):
            if dark:
                square.putpixel((across + 4, down + 4), (20, 15, 10))
    scene.paste(square.resize((side * 4, side * 4), Image.Resampling.NEAREST), (400, 620))
    made = one(tmp_path, "tile.jpg", coded(scene, "JPEG"))
    assert made.tag is None
    assert_as_photographed(made)


def test_of_two_tags_the_nearer_is_the_tiles(tmp_path: Path) -> None:
    near, far = camera(Scene(glaze=(40, 0, -20), tag="B117")), camera(Scene(glaze=(40, 0, -20), tag="C9"))
    both = Image.new("RGB", (near.width, near.height + far.height * 2 // 3))
    both.paste(near, (0, 0))
    both.paste(far.resize((far.width * 2 // 3, far.height * 2 // 3)), (0, near.height))
    made = one(tmp_path, "tile.png", coded(both, "PNG"))
    assert made.tag is not None and made.tag.mark == "B117"


def test_what_was_measured_is_kept_with_the_picture(tmp_path: Path) -> None:
    photos = {"tile.jpg": photograph(Scene(glaze=GLAZES["amber"], spots=(40, 0, -30), light=CASTS["a green tube"]))}
    first, _ = developed(tmp_path, photos)
    second, problems = developed(tmp_path, photos)
    assert problems == ()
    assert first == second
    colour, tag = second["tile.jpg"].colour, second["tile.jpg"].tag
    assert colour is not None and colour.balanced and colour.breaking is not None and tag is not None


def test_a_drawing_is_measured_and_never_balanced_without_a_tag(tmp_path: Path) -> None:
    made = one(tmp_path, "drawing-b117.png", coded(camera(Scene(glaze=GLAZES["amber"], tag="", light=DAY)), "PNG"))
    assert made.drawing
    assert_as_photographed(made)


@pytest.mark.parametrize("value", range(0, 256, 5))
def test_light_and_its_coding_undo_each_other(value: int) -> None:
    assert encoded(linear(value)) == value


@pytest.mark.parametrize(
    ("paper", "tells"),
    [((240, 240, 244), True), ((252, 200, 120), True), ((253, 200, 120), False), ((46, 46, 46), True), ((200, 120, 45), False)],
)
def test_which_papers_tell_the_light(paper: tuple[int, int, int], tells: bool) -> None:
    assert can_balance(paper) is tells


@pytest.mark.parametrize("view", [STRAIGHT, SLANTED], ids=["from above", "from a slant"])
@pytest.mark.parametrize(("kind", "name"), [("JPEG", "tile.jpg"), ("PNG", "tile.png")])
def test_a_tag_that_is_small_in_a_wide_photograph_is_read(
    tmp_path: Path, kind: str, name: str, view: tuple[tuple[float, float], ...]
) -> None:
    """Half a metre of table on 12 megapixels: a module is 1.4 pixels of what is shown, too few to be read there."""
    scene = camera(Scene(glaze=GLAZES["celadon"], light=CASTS["blue shade"], view=view))
    near = scene.resize((scene.width * 8 // 5, scene.height * 8 // 5), Image.Resampling.BICUBIC)
    photo = Image.new("RGB", (4000, 3000), scene.getpixel((4, 4)))
    photo.paste(near, (1500, 900))
    made = one(tmp_path, name, coded(photo, kind, **({"compress_level": 1} if kind == "PNG" else {"quality": 90})))
    assert made.tag is not None and made.tag.mark == "B117"
    assert made.tag.pixels_per_mm == pytest.approx(5 * 1.6 * 1200 / 4000, rel=0.15)
    assert made.colour is not None and made.colour.balanced
    assert difference(made.colour.main, Lab(*GLAZES["celadon"])) < 5
