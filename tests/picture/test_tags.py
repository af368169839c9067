"""The tag's code is read by a reader that we do not ship, in the size that is printed, and says the tile and nothing else."""

from __future__ import annotations

import re
import subprocess
from fractions import Fraction
from pathlib import Path

import pytest
from PIL import Image
from pyzbar import pyzbar

from combobook import tags


@pytest.mark.parametrize(("written", "said"), [("B117", "B117"), ("b117", "B117"), (" rk-07 ", "RK-07"), ("ABCD-12345", "ABCD-12345")])
def test_a_tag_says_its_tiles_mark_in_capitals(written: str, said: str) -> None:
    assert tags.payload(written) == said
    assert tags.mark_in(said) == said


@pytest.mark.parametrize("text", ["", "B", "117", "Ana", "B117 Ana", "ABCDE1", "B123456", "B--1", "https://studio.example/b117", "B1\nB2"])
def test_nothing_else_is_put_on_a_tag_or_taken_for_one(text: str) -> None:
    assert tags.mark_in(text) is None
    with pytest.raises(ValueError, match="no tile's mark"):
        tags.payload(text)


def test_every_mark_that_a_log_can_hold_fits_the_smallest_code_with_the_strongest_correction() -> None:
    """Ten characters of the alphanumeric set: what a version 1 symbol holds at level H (ISO/IEC 18004, table 7)."""
    for mark in ("A1", "B117", "ABCD-12345"):
        rows = tags.modules(mark)
        assert (len(rows), {len(row) for row in rows}) == (tags.MODULES, {tags.MODULES})


def boxes() -> list[tags.Box]:
    return [tags.CODE, tags.WORDS, tags.SCALE]


def test_everything_lies_on_the_tag_and_the_code_keeps_its_quiet_zone() -> None:
    """Four modules of white on each side (ISO/IEC 18004): paper edge, words and scale stay out of it."""
    for box in boxes():
        assert box.x >= 0 and box.y >= 0
        assert box.x + box.width <= tags.WIDTH_MM and box.y + box.height <= tags.HEIGHT_MM
    quiet = tags.QUIET * tags.MODULE_MM
    assert tags.CODE.x >= quiet and tags.CODE.y >= quiet
    assert tags.WORDS.x >= tags.CODE.x + tags.CODE.width + quiet
    assert tags.SCALE.y >= tags.CODE.y + tags.CODE.height + quiet
    assert tags.WORDS.y + tags.WORDS.height <= tags.SCALE.y


def test_the_scale_has_a_tick_each_millimetre_where_it_should() -> None:
    ticks = [Fraction(x) for x in re.findall(r"M([\d.]+) ", tags.scale_path())]
    assert ticks == [tags.SCALE.x + mm for mm in range(tags.SCALE_MM + 1)]
    assert [text for _, text in tags.SCALE_NUMBERS] == ["0", "10", "20", "30", "40", "50", "60"]


@pytest.mark.parametrize("mark", ["B117", "A1", "ABCD-12345"])
def test_printed_at_its_size_another_reader_reads_it(tmp_path: Path, mark: str) -> None:
    """Drawn as a sheet draws it, printed to PDF, rasterised by Poppler, read by zbar; its size measured in the picture."""
    from weasyprint import HTML

    wide, high = float(tags.WIDTH_MM), float(tags.HEIGHT_MM)
    page = (
        f"<html lang=en><title>t</title><style>@page{{size:{wide}mm {high}mm;margin:0}}body{{margin:0}}svg{{display:block}}</style>"
        f'<svg width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}"><path d="{tags.code_path(mark)}"/>'
        f'<path d="{tags.scale_path()}" fill="none" stroke="black" stroke-width="0.2"/></svg></html>'
    )
    (tmp_path / "tag.pdf").write_bytes(HTML(string=page).write_pdf() or b"")
    run = ["pdftoppm", "-r", "508", "-gray", "-singlefile", str(tmp_path / "tag.pdf"), str(tmp_path / "tag")]
    subprocess.run(run, check=True, timeout=60)
    image = Image.open(tmp_path / "tag.pgm")  # 508 dpi: 20 pixels a millimetre
    found = pyzbar.decode(image, symbols=[pyzbar.ZBarSymbol.QRCODE])
    assert [code.data.decode() for code in found] == [mark]
    code = image.crop((0, 0, 340, 330)).point(lambda value: 255 if value < 128 else 0).getbbox()
    expected = [20 * float(edge) for edge in (tags.CODE.x, tags.CODE.y, tags.CODE.x + tags.CODE_MM, tags.CODE.y + tags.CODE_MM)]
    assert code == pytest.approx(expected, abs=1.5)
