"""What is measured, part by part: each gives lines, a ratio to its floor with the goal beside it."""

from __future__ import annotations

import io
import json
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from math import log
from pathlib import Path

from tests.bench import sheets
from tests.bench.clock import plain, seconds, side_by_side, told
from tests.bench.screen import screen
from tests.bench.studios import lay_out

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "content"
SIZES = (20, 100, 500, 3500)


def check(scratch: Path) -> Iterator[str]:
    """`check` of the demo: as a command, and inside a process that has it imported."""
    from combobook.pipeline import check as checked
    from combobook.progress import Silent

    def command() -> None:
        run = subprocess.run([sys.executable, "-m", "combobook", "check", str(DEMO)], cwd=ROOT, capture_output=True, check=False)
        assert run.returncode == 0, run.stderr.decode()

    bare, whole, inside = side_by_side(
        lambda: subprocess.run([sys.executable, "-c", ""], check=True), command, lambda: checked(DEMO, Silent())
    )
    yield told("check of the demo, as a command", whole, bare, "under 0.2 s in all")
    yield plain("check of the demo, inside a process", inside)


def text(scratch: Path) -> Iterator[str]:
    """Read to judge against `yaml.compose` of the same front matter with the C loader."""
    import yaml

    from combobook.pipeline import check as checked
    from combobook.progress import Silent

    for name, folder in (("demo", DEMO), ("500 layerings", scratch / "text")):
        if folder != DEMO:
            lay_out(folder, 500)
        texts = [_front_matter(path) for path in sorted(folder.rglob("*")) if path.suffix in (".md", ".yaml")]

        def compose(texts: list[str] = texts) -> None:
            for front in texts:
                yaml.compose(front, Loader=yaml.CSafeLoader)

        floor, ours = side_by_side(compose, lambda folder=folder: checked(folder, Silent()))
        yield told(f"read to judge, {name} ({len(texts)} entries)", ours, floor, "2.0 at most, logs not in the floor")
    yield from _stage_by_stage(scratch / "text")


def _front_matter(path: Path) -> str:
    whole = path.read_text(encoding="utf-8")
    return whole.split("\n---", 1)[0].removeprefix("---\n") if path.suffix == ".md" else whole


def _stage_by_stage(folder: Path) -> Iterator[str]:
    from combobook.pipeline import check as checked
    from tests.bench.stopwatch import Stopwatch

    watch = Stopwatch()
    checked(folder, watch)
    for name, spent in watch.spent.items():
        yield plain(f"  of which {name}", spent)


def picture(scratch: Path) -> Iterator[str]:
    """Six photographs of 12 megapixels against decoding the same with the decoder's own shrinking."""
    from PIL import Image

    import combobook.picture as stage

    folder = scratch / "pictures"
    names = _photographs(folder / "photos", 6)
    stage.picture(folder, names[:1], scratch / "cache-warm")

    def decode() -> None:
        for name in names:
            with Image.open(folder / "photos" / name) as image:
                image.draft("RGB", (1200, 1200))
                image.load()

    def with_workers(count: int) -> None:
        shutil.rmtree(scratch / "cache", ignore_errors=True)
        stage._WORKERS = count
        _, problems = stage.picture(folder, names, scratch / "cache")
        assert problems == ()

    usual = stage._WORKERS
    try:
        floor, one, two = side_by_side(decode, lambda: with_workers(1), lambda: with_workers(2), turns=3)
    finally:
        stage._WORKERS = usual
    yield told("six photographs, one worker, JPEG and WebP in three sizes, measured", one, floor, "3.7 at most")
    yield f"two workers: {one / two:.2f} times as fast (goal 1.9 at least)"
    kept = seconds(lambda: stage.picture(folder, names, scratch / "cache"))
    yield told("the same six kept", kept, two, "0.1 at most")
    yield from _five_hundred_again(scratch / "five-hundred")


def _five_hundred_again(folder: Path) -> Iterator[str]:
    """A second publish's share of 500 pictures, small so that the first one does not take minutes."""
    from PIL import Image

    import combobook.picture as stage

    photos = folder / "photos"
    photos.mkdir(parents=True)
    names = [f"tile-{number}.png" for number in range(500)]
    for number, name in enumerate(names):
        Image.new("RGB", (160, 200), (number % 256, number // 2, 90)).save(photos / name, compress_level=1)
    time.sleep(2.5)  # a file just written is read again, as it might still change
    stage.picture(folder, names, folder / "cache")
    yield plain("500 pictures kept", seconds(lambda: stage.picture(folder, names, folder / "cache")), "goal under 1 s")


def _photographs(folder: Path, count: int) -> list[str]:
    """Photographs of 4000 × 3000 pixels with the grain that makes a JPEG of 3 to 6 MB."""
    import numpy as np
    from PIL import Image

    folder.mkdir(parents=True)
    chance = np.random.default_rng(6)
    coarse = Image.fromarray(chance.integers(40, 220, (150, 200, 3), dtype=np.uint8)).resize((4000, 3000))
    grain = chance.integers(0, 24, (3000, 4000, 3), dtype=np.uint8)
    names = []
    for number in range(count):
        pixels = np.asarray(coarse) + np.roll(grain, number, axis=0)
        names.append(f"tile-{number}.jpg")
        Image.fromarray(pixels).save(folder / names[-1], quality=90)
    return names


def chart(scratch: Path) -> Iterator[str]:
    """The demo's wall chart against one bare table of the same cards: fixed layout, the library's own fetcher."""
    from combobook.render.chart import wall_chart
    from tests.bench.editions import edition_of

    edition = edition_of(DEMO, scratch / "cache-chart")
    sheets = _pages(wall_chart(edition)[0]["print/wall-chart.pdf"])  # also warms what is made once a process
    html = _bare_table(edition, sheets)
    floor, ours = side_by_side(lambda: _plain_pdf(html), lambda: wall_chart(edition), turns=3)
    cards = html.count("<td>")
    yield told(f"wall chart, {cards} cards on {sheets} sheets, tagged", ours, floor, "0.85 at most at 3,600 cards")


def _bare_table(edition: object, sheets: int) -> str:
    """As many cells as the chart has cards, with the same pictures, four lines of text each, on as many sheets."""
    from html import escape

    from combobook.edition import Edition

    assert isinstance(edition, Edition)
    cells = []
    for entry in edition.book.combinations.values():
        if not entry.on_chart:
            continue
        shown = edition.pictures.get(str(entry.photo.value)) or next(
            (edition.pictures[str(t.photo.value)] for t in edition.book.tiles_of.get((entry.base.id, entry.top.id), ())
             if str(t.photo.value) in edition.pictures), None)  # fmt: skip
        image = f'<img src="{shown.card.stored.as_uri()}">' if shown else ""
        cells.append(f"<td>{image}<p>then {escape(entry.top.name.value)}<p>Keep off food<p>Leave 13 mm<p>2 coats</td>")
    width = 6
    rows = ["<tr>" + "".join(cells[n : n + width]) for n in range(0, len(cells), width)]
    paper = edition.book.studio.chart_paper.value
    size = f"{float(paper.width)}mm {float(paper.height)}mm"
    height = max(20.0, (float(paper.height) - 40) * max(1, sheets) / max(1, len(rows)) - 2)
    style = (
        f"@page{{size:{size};margin:15mm}}table{{table-layout:fixed;width:100%}}td{{height:{height:.1f}mm}}"
        "img{width:100%;height:30mm;object-fit:cover}tr{break-inside:avoid}"
    )
    return f"<html lang=en><title>t</title><style>{style}</style><table>{''.join(rows)}</table>"


def _plain_pdf(html: str) -> bytes:
    from weasyprint import HTML

    made = HTML(string=html).write_pdf()
    assert isinstance(made, bytes)
    return made


def _pages(pdf: bytes) -> int:
    from pypdf import PdfReader

    return len(PdfReader(io.BytesIO(pdf)).pages)


def site(scratch: Path) -> Iterator[str]:
    """The pages of 500 layerings against their parts summed: compose, Markdown, a bare template, the write."""
    import yaml
    from jinja2 import Environment, StrictUndefined
    from markdown import Markdown

    from combobook.render.site import site as pages
    from tests.bench.editions import edition_of

    lay_out(scratch / "site", 500)
    edition = edition_of(scratch / "site", scratch / "cache-site")
    made, _ = pages(edition)
    html = {path: data for path, data in made.items() if path.endswith(".html")}
    bodies = [p.read_text(encoding="utf-8") for p in sorted((scratch / "site").rglob("*.md"))]
    template = Environment(autoescape=True, undefined=StrictUndefined).from_string(
        "<h1>{{ t }}</h1>{% for l in lines %}<p>{{ l }}</p>\n{% endfor %}"
    )
    lines = ["what a page of five kilobytes says"] * 120
    markdown = Markdown()

    def floor() -> None:
        for body in bodies:
            yaml.compose(_front_of(body), Loader=yaml.CSafeLoader)
            markdown.reset()
            markdown.convert(body)
        for path in html:
            (scratch / "page.html").write_text(template.render(t=path, lines=lines), encoding="utf-8")

    low, ours = side_by_side(floor, lambda: pages(edition), turns=3)
    size = sum(map(len, html.values())) // max(1, len(html))
    yield told(f"{len(html)} pages of {size} bytes, one core", ours, low, "1.2 at most for pages of 5.5 KB")


def _front_of(entry: str) -> str:
    return entry.split("\n---", 1)[0].removeprefix("---\n")


def publish(scratch: Path) -> Iterator[str]:
    """The demo published to an empty folder, and again with nothing changed, as commands."""
    folder, to = scratch / "demo", scratch / "out" / "build"
    shutil.copytree(DEMO, folder)
    to.parent.mkdir()

    def command() -> None:
        run = subprocess.run(
            [sys.executable, "-m", "combobook", "publish", str(folder), "--to", str(to)],
            cwd=ROOT, capture_output=True, check=False,
        )  # fmt: skip
        assert run.returncode == 0, run.stderr.decode()

    cold = seconds(command)
    again = min(seconds(command), seconds(command))
    yield plain("publish of the demo, cold", cold)
    yield told("publish of the demo, nothing changed", again, cold, "0.1 at most")


def growth(scratch: Path) -> Iterator[str]:
    """Each stage from 20 to 3,500 layerings: its exponent over the last step, and the memory of the process."""
    spent: dict[int, dict[str, float]] = {}
    for size in SIZES:
        folder = scratch / f"grown-{size}"
        lay_out(folder, size)
        run = subprocess.run(
            [sys.executable, "-m", "tests.bench.stopwatch", str(folder)], cwd=ROOT, capture_output=True, text=True, check=False
        )
        if run.returncode:
            raise RuntimeError(run.stderr)
        spent[size] = json.loads(run.stdout)
        shutil.rmtree(folder)
    low, high = SIZES[-2:]
    for stage in spent[high]:
        series = ", ".join(f"{size}: {spent[size].get(stage, 0):.3f}" for size in SIZES)
        if stage == "memory":
            yield f"memory of the process in MB: {series} (goal under 400)"
            continue
        grown = log(max(spent[high][stage], 1e-6) / max(spent[low][stage], 1e-6)) / log(high / low)
        yield f"{stage}, s: {series}; exponent {grown:.2f} (goal 1.1 at most)"


PARTS = (check, text, picture, chart, sheets.cut, sheets.book, site, screen, publish, growth)
"""In the order in which they run."""
