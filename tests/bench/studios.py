"""Studios of any size for the benches: invented, regular, and like a real class's in the shape of their text."""

from __future__ import annotations

from itertools import islice, permutations
from pathlib import Path

TILES_A_LAYERING = 3
_FLOWS = ("stable", "moves", "runny")
_LABELS = ("yes", "yes", "conditional", "no")
_BODY = """Brush the first glaze on and let it dry until it no longer looks wet, then turn the piece over and brush the
second one across. Where the two meet it **breaks** over texture, and on a flat wall it stays calm.

- thin on edges: brown
- thick in carving: blue-grey

We keep a tile of it beside the kiln room door. Ask before you put it on a tall piece.
"""


def lay_out(folder: Path, layerings: int) -> None:
    """A studio with so many layerings, about as many glazes as their root asks for, and three tiles a layering."""
    glazes = 5
    while glazes * (glazes - 1) < layerings:
        glazes += 1
    names = [f"glaze-{number:03}" for number in range(glazes)]
    pairs = list(islice(permutations(names, 2), layerings))
    _entry(folder / "studio.yaml", _studio(), body=None)
    for number, name in enumerate(names):
        _entry(folder / "glazes" / f"{name}.md", _glaze(number, name), body=_BODY)
    for base, top in pairs:
        _entry(folder / "combinations" / f"{top}-over-{base}.md", _combination(base, top), body=_BODY)
    for number in range(1, 7):
        fields = {"cone": "6", "date": f"2026-0{number}-12", "kiln": "big one", "witness": "{upper: 6, lower: 6 1/2}"}
        _entry(folder / "firings" / f"f{number:02}.md", fields, body="Even.\n")
    _entry(folder / "clays" / "bank-white.md", {"name": "Bank White", "cone": "4 to 7", "tone": "light"}, body="Smooth.\n")
    for form, height, food in (("mug", "95 mm", "yes"), ("vase", "240 mm", "no")):
        _entry(folder / "forms" / f"{form}.md", {"name": form.title(), "height": height, "holds food": food}, body="Ours.\n")
    _logs(folder / "logs", pairs)


def _studio() -> dict[str, str]:
    return {
        "studio": "Bench Lane Clay Room",
        "edition": "2026 Autumn",
        "cone": "6",
        "date": "2026-11-02",
        "food rule": "labels",
        "labels read": "2026-09-01",
    }


def _glaze(number: int, name: str) -> dict[str, str]:
    return {
        "name": name.replace("-", " ").title(),
        "mark": f"G{number:03}",
        "cone": "5 to 6",
        "food label": _LABELS[number % len(_LABELS)],
        "flow": _FLOWS[number % len(_FLOWS)],
        "coats": "1 to 3",
        "surface": "gloss",
        "looks": "blue-grey, breaks brown on edges",
        "data sheet": "2026-08-01",
    }


def _combination(base: str, top: str) -> dict[str, str]:
    return {"base": base, "top": top, "coats": "2 + 1", "looks": "breaks brown over blue"}


def _entry(path: Path, fields: dict[str, str], body: str | None) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    text = "".join(f"{key}: {value}\n" for key, value in fields.items())
    path.write_text(text if body is None else f"---\n{text}---\n\n{body}", encoding="utf-8")


def _logs(folder: Path, pairs: list[tuple[str, str]]) -> None:
    """Three tiles a layering, each from another firing; now and then a run or a fault. A file holds 500 rows."""
    folder.mkdir(parents=True)
    head = "tile,base,base coats,top,top coats,clay,firing,kiln shelf,stood,ran,faults,looks,photo\n"
    rows = []
    for number, (base, top) in enumerate(pairs):
        for turn in range(TILES_A_LAYERING):
            tile = number * TILES_A_LAYERING + turn
            ran = f"{tile % 7} mm" if tile % 5 == 0 else "no"
            faults = "pinholes" if tile % 11 == 0 else "none"
            firing = f"f{(number + turn) % 6 + 1:02}"
            rows.append(f"T{tile},{base},2,{top},1,bank-white,{firing},upper,upright,{ran},{faults},calm,\n")
    for start in range(0, len(rows), 500):
        (folder / f"class-{start:05}.csv").write_text(head + "".join(rows[start : start + 500]), encoding="utf-8")
