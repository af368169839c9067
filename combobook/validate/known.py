"""Which fields each kind of entry has, and what to say of any other."""

from __future__ import annotations

from combobook.raw import RawEntry
from combobook.spelling import nearest
from combobook.validate.entry import Fields

STUDIO = (
    "studio",
    "edition",
    "cone",
    "date",
    "food rule",
    "doubtful glazes on food ware",
    "most coats",
    "usual coats",
    "rim band",
    "lip",
    "foot margin",
    "run factor",
    "labels read",
    "read from",
    "chart paper",
    "paper",
    "units",
    "address",
    "students",
    "tiles each",
    "seats at a table",
    "tag size",
    "tag margins",
    "tag gaps",
    "house rules",
    "theme",
    "language",
)
KNOWN = {
    "": STUDIO,
    "glazes": (
        "name",
        "mark",
        "cone",
        "food label",
        "label says",
        "label read",
        "data sheet",
        "flow",
        "goes on",
        "rim band",
        "coats",
        "surface",
        "clay shows",
        "looks",
        "handling",
        "status",
        "lot",
        "retest since",
        "left",
        "jar",
        "covers",
        "maker",
        "was",
    ),
    "combinations": ("base", "top", "coats", "name", "looks", "photo", "on chart", "keep off food"),
    "clays": ("name", "mark", "cone", "tone", "looks"),
    "forms": ("name", "height", "holds food", "inside", "area"),
    "firings": ("cone", "date", "kiln", "rate", "peak", "hold", "cooling", "witness"),
    "lab": (
        "glaze",
        "base",
        "top",
        "ware",
        "limits",
        "coats",
        "clay",
        "cone",
        "lead",
        "cadmium",
        "method",
        "lab",
        "date",
    ),
    "pages": ("title",),
}
A_KIND = {
    "": "studio.yaml",
    "glazes": "a glaze",
    "combinations": "a combination",
    "clays": "a clay",
    "forms": "a form",
    "firings": "a firing",
    "lab": "a lab report",
    "pages": "a page",
}

# Fields that somebody would write to make a verdict kinder. No entry can: only labels, tiles and lab reports speak.
LOOSENS = frozenset(
    {
        "food",
        "food safe",
        "food-safe",
        "foodsafe",
        "food level",
        "food ware",
        "food use",
        "food ok",
        "ok for food",
        "safe",
        "verdict",
        "verdicts",
        "level",
        "class",
        "movement",
        "stable",
        "runny",
        "margin",
        "reach",
        "evidence",
        "catch plate",
        "places",
        "allow",
        "allow food",
        "allows food",
        "tested",
        "dinnerware",
        "dinnerware safe",
        "lab report",
        "override",
        "worst run",
    }
)


def unknown_fields(raw: RawEntry, fields: Fields) -> None:
    """An error for every field that this kind of entry does not have.

    A known field that was meant, and is not there, counts as refused: its absence is no second problem.
    """
    known = KNOWN[raw.folder]
    for name, field in raw.fields.items():
        if name in known:
            continue
        place, width = fields.place_of(field.key), field.key.width
        plain = " ".join(name.casefold().replace("_", " ").split())
        meant = nearest(plain, known)
        if meant and meant not in raw.fields:
            fields.refused.add(meant)
        if plain in LOOSENS and (raw.folder == "combinations" or not meant):
            fields.find(
                place,
                width,
                code="loosens-verdict",
                message=f"there is no field `{name}`: an entry can make a verdict stricter, never kinder",
                help="delete the line: labels, tiles and lab reports decide; to be stricter, write "
                "`keep off food:` with the reason",
            )
        else:
            message = f"{A_KIND[raw.folder]} has no field `{name}`"
            fields.find(place, width, code="unknown-key", message=message, help=_fix(plain, raw.folder))


def _fix(name: str, folder: str) -> str:
    known = KNOWN[folder]
    if name in known:
        return f"did you mean `{name}`?"
    for kind, names in KNOWN.items():
        if name in names and kind != folder:
            near = nearest(name, known)
            return f"`{name}` belongs to {A_KIND[kind]}" + (f"; here, did you mean `{near}`?" if near else "")
    if near := nearest(name, known):
        return f"did you mean `{near}`?"
    return f"delete the line, or use one of: {', '.join(known)}"
