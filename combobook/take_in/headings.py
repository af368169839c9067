"""What the headings of a class's table may be called, and which column of ours each one is.

Trade words and everyday ones; what stands here is common practice, no source. Order, letter case, punctuation and
small words do not count: `Which glaze went on first?` is `glaze first`.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from difflib import get_close_matches

COATS = "coats"
"""Of the glaze to its left; where it is the only such column, `2 + 1` is the base's, then the top's."""
LEAVE_OUT = "leave out"
PERSON = "a person"
CM = "ran cm"
OURS = ("reason", "row")
"""Columns of a doubtful file that take-in wrote itself."""

_SMALL_WORDS = (
    "a an and at by did do does each for from has have how i in into is it its many much my no of on or our per please "
    "that the their this to used use was we went were what when where which with you your put applied type"
)
_SMALL = frozenset(_SMALL_WORDS.split())

_LAYERS: Mapping[str, str] = {
    "base": "base|base glaze|first|first glaze|1st|1st glaze|glaze 1|glaze one|glaze|glaze name|under|under glaze|"
    "underneath|glaze underneath|bottom|bottom glaze|lower glaze|inner glaze|glaze a|layer 1|first layer|1st layer|"
    "base layer|bottom layer|glaze below|below",
    "top": "top|top glaze|second|second glaze|2nd|2nd glaze|glaze 2|glaze two|over|over glaze|upper glaze|"
    "outer glaze|glaze over|glaze top|glaze b|layer 2|second layer|2nd layer|top layer|then|then glaze|last glaze|"
    "glaze above|above|glaze over top",
}
_LOG: Mapping[str, str] = {
    "tile": "tile|tile number|tile id|tile code|tile mark|tile name|tile label|test tile|test tile number|code|mark|"
    "test|test number|sample|sample number|piece|piece number",
    "clay": "clay|clay body|body|clay name|clay used",
    "firing": "firing|kiln firing|kiln load|load|firing number|kiln run|firing name|kiln load number|"
    "load number|firing id",
    "kiln shelf": "kiln shelf|shelf|kiln position|position kiln|place kiln|level|kiln level|shelf kiln|shelf position",
    "stood": "stood|standing|stood upright flat|upright flat|upright|orientation|tile stood|tile standing|"
    "fired upright|fired upright flat|flat upright|stand|how stood|tile position",
    "ran": "ran|run|runs|running|drip|drips|dripped|far ran|far run|far glaze ran|far glaze run|run length|movement|"
    "drip length|run distance|how far|far|how far ran|glaze ran",
    "faults": "faults|fault|defects|defect|flaws|flaw|faults seen|any faults|glaze faults|surface faults|glaze defects",
    "looks": "looks|look|notes|note|comments|comment|description|appearance|result|results|colour|color|looks like|"
    "look like|observations|observation|remarks|remark|came out|describe",
    "photo": "photo|picture|image|photograph|photo file|picture file|photo name|file name|pic",
}
_GLAZES: Mapping[str, str] = {
    "name": "name|glaze|glaze name|name glaze|glazes",
    "mark": "mark|code|abbreviation|abbrev|abbr|lid mark|short|initials|short name|label mark|glaze mark|"
    "glaze code|mark lid",
    "cone": "cone|cones|cone range|firing cone|firing range|fires|temperature cone|label cone",
    "food label": "food label|label food|label says about food|label says food|label about food|food label says",
    "label says": "label says|label words|words label|label text|label wording",
    "label read": "label read|date label read|label date|label last read|read label",
    "data sheet": "data sheet|data sheet date|sds|sds date|safety data sheet|sheet date|data sheet read",
    "flow": "flow|movement|moves|running|fluidity|runs|run",
    "goes on": "goes on|where goes|goes where|placement",
    "rim band": "rim band",
    "coats": "coats|number coats|coat|label coats|coats label",
    "surface": "surface|finish|texture|gloss matte|sheen",
    "clay shows": "clay shows|opacity|clay shows through|transparent",
    "looks": "looks|look|description|colour|color|notes|comments|appearance|looks like",
    "handling": "handling|cautions|caution|warnings|warning|hazards|handling cautions|label cautions",
    "status": "status|state",
    "lot": "lot|batch|lot number|batch number",
    "retest since": "retest since",
    "left": "left|amount left|left jar|remaining|amount|stock",
    "jar": "jar|jar size|container|container size|size|bottle size",
    "covers": "covers|coverage",
    "maker": "maker|manufacturer|supplier|made by|brand|company",
    "was": "was",
}
_PEOPLE = (
    "name|names|student|students|student name|pupil|pupil name|first name|last name|surname|family name|full name|"
    "maker|made|made by|potter|artist|who|who made|email|e mail|email address|e mail address|mail|username|user name|"
    "user|phone|telephone|mobile|cell|phone number|mobile number|telephone number|parent|parents|guardian|"
    "address|contact|glazer|student id|student number|initials|author|person|owner"
)  # fmt: skip
_COAT_WORDS, _LOT_WORDS = frozenset({"coat", "coats", "layers"}), frozenset({"lot", "batch"})
_UNITS = {"mm": "ran mm", "millimetres": "ran mm", "millimeters": "ran mm", "cm": CM, "centimetres": CM,
          "centimeters": CM, "in": "ran in", "inch": "ran in", "inches": "ran in"}  # fmt: skip
_TRADE_WORDS = frozenset({"underglaze", "overglaze"})
"""Other materials than a first glaze and a top: nobody can tell which is meant."""
_NEAR = 0.82
"""How alike a misspelt heading must be (difflib's ratio): `faluts` is near, `ran cm` and `ran mm` are not (house)."""


def words_of(heading: str) -> tuple[str, ...]:
    """A heading's words in lower case, `#` as number, without small words; all of them where only such are left."""
    plain = unicodedata.normalize("NFKC", heading).casefold().replace("#", " number ").replace("№", " number ")
    found = re.findall(r"[a-z0-9]+", plain)
    every = tuple("number" if word in ("no", "num", "nr", "numbers") else word for word in found)
    return tuple(word for word in every if word not in _SMALL) or every


def _phrases(table: Mapping[str, str]) -> dict[frozenset[str], str]:
    return {frozenset(words_of(phrase)): name for name, said in table.items() for phrase in said.split("|")}


_BY_LAYER, _BY_LOG, _BY_GLAZE = _phrases(_LAYERS), _phrases(_LOG), _phrases(_GLAZES)
_BY_PERSON = _phrases({PERSON: _PEOPLE})
_SPELLINGS = {p: n for n, s in {**_LAYERS, **_LOG}.items() for p in s.split("|")} | {
    f"{layer} {what}": f"{layer} {what}" for layer in ("base", "top") for what in ("coats", "lot")
} | {"kiln shelf": "kiln shelf"}  # fmt: skip


def log_column(heading: str) -> str | None:
    """The log's column that a heading names, `coats`, PERSON or `ran cm`; None where it names none that is known."""
    raw = re.findall(r"[a-z0-9]+", unicodedata.normalize("NFKC", heading).casefold())
    words = frozenset(words_of(heading))
    if units := [_UNITS[word] for word in raw if word in _UNITS and (word != "in" or raw[-1] == "in")]:
        rest = frozenset(words_of(" ".join(word for word in raw if word not in _UNITS)))
        if _BY_LOG.get(rest) == "ran":
            return units[0]
    if words & _COAT_WORDS:
        return _of_layer(words - _COAT_WORDS - {"number", "brushed"}, "coats")
    if words & _LOT_WORDS:
        found = _of_layer(words - _LOT_WORDS - {"number"}, "lot")
        return None if found == "lot" else found
    for known in (_BY_LAYER, _BY_LOG, _BY_PERSON):
        if words in known:
            return known[words]
    return PERSON if words & {"email", "phone", "student", "pupil", "surname", "telephone"} else None


def _of_layer(rest: frozenset[str], what: str) -> str | None:
    """`base coats` for what is left of a heading without its `coats`; `coats` alone where nothing is."""
    if not rest or rest == {"glaze"}:
        return what
    layer = _BY_LAYER.get(rest)
    return f"{layer} {what}" if layer else None


def glaze_column(heading: str) -> str | None:
    """The field of a glaze that a heading names; None where it names none that is known."""
    words = frozenset(words_of(heading))
    return _BY_GLAZE.get(words) or (PERSON if words & {"email", "phone", "telephone"} else None)


def near_log_column(heading: str) -> str | None:
    """The log's column that a misspelt heading is most likely to name, None where none is near."""
    said = " ".join(words_of(heading))
    if said in _TRADE_WORDS:
        return None
    found = get_close_matches(said, _SPELLINGS, n=1, cutoff=_NEAR)
    return _SPELLINGS[found[0]] if found else None


def near_glaze_column(heading: str) -> str | None:
    """The glaze's field that a misspelt heading is most likely to name, None where none is near."""
    spellings = {p: n for n, s in _GLAZES.items() for p in s.split("|")}
    found = get_close_matches(" ".join(words_of(heading)), spellings, n=1, cutoff=_NEAR)
    return spellings[found[0]] if found else None


def is_known(heading: str) -> bool:
    """True where a heading could be a column of a log or of a list of glazes."""
    return bool(heading) and (log_column(heading) is not None or glaze_column(heading) is not None)
