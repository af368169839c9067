"""Typed entries as validated one by one, before names become objects. Leaf module.

Every value is a `Written`: the value, and where the author wrote it. *Not known* (blank, `?`, `not known`) is the
member `NOT_KNOWN`, never None; None means that the field does not apply (a single glaze's `top`) or that an optional
piece of text is absent.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from typing import Generic, TypeVar

from combobook.cones import Cone, ConeRange
from combobook.measures import CoatRange, Coats, Paper, Reading, Sides, Span
from combobook.past import PastEdition, Withdrawn
from combobook.problems import Place

T = TypeVar("T", covariant=True)


class Unknown(Enum):
    """Nobody knows: a value of its own, shown as such, never good news."""

    NOT_KNOWN = "not known"


NOT_KNOWN = Unknown.NOT_KNOWN


@dataclass(frozen=True, slots=True, kw_only=True)
class Written(Generic[T]):
    """A value with its place.

    `place` is where the value stands; `field_line` the line of its field's key (for a CSV cell, of its row).
    `stated` is False where the author wrote nothing usable (absent or blank) and `value` is the default or
    NOT_KNOWN; an absent glaze field stands at its `name` line, an absent studio field at `studio.yaml:1:1`.
    """

    value: T
    place: Place
    field_line: int
    stated: bool = True

    @property
    def at(self) -> Place:
        """Where a reason points: the field's line."""
        return Place(path=self.place.path, line=self.field_line)


class FoodLabel(Enum):
    YES = "yes"
    NO = "no"
    CONDITIONAL = "conditional"
    NOT_STATED = "not stated"


class Flow(Enum):
    STABLE = "stable"
    MOVES = "moves"
    RUNNY = "runny"


class GoesOn(Enum):
    ANYWHERE = "anywhere"
    RIM_ONLY = "rim only"


class Surface(Enum):
    GLOSS = "gloss"
    SATIN = "satin"
    MATTE = "matte"
    TEXTURED = "textured"


class ClayShows(Enum):
    YES = "yes"
    PARTLY = "partly"
    NO = "no"


class Status(Enum):
    IN_USE = "in use"
    RUNNING_LOW = "running low"
    OUT = "out"
    RETIRED = "retired"


class FoodRule(Enum):
    ONE_GLAZE_ALONE = "one glaze alone"
    LABELS = "labels"
    LAB_REPORTS_ONLY = "lab reports only"
    NEVER = "never"


class DoubtfulRule(Enum):
    NEVER = "never"
    BELOW_THE_LIP = "below the lip"


class Units(Enum):
    MM = "mm"
    INCHES = "in"


class Tone(Enum):
    LIGHT = "light"
    MID = "mid"
    DARK = "dark"


class Inside(Enum):
    OPEN = "open"
    HOLLOW = "hollow"
    NONE = "none"


class KilnShelf(Enum):
    UPPER = "upper"
    MIDDLE = "middle"
    LOWER = "lower"


class Stood(Enum):
    UPRIGHT = "upright"
    FLAT = "flat"


class OffTheTile(Enum):
    """The glaze reached the tile's foot: nobody knows how far it would have run."""

    OFF_THE_TILE = "off the tile"


OFF_THE_TILE = OffTheTile.OFF_THE_TILE


class Fault(Enum):
    PINHOLES = "pinholes"
    PITS = "pits"
    BLISTERS = "blisters"
    CRATERS = "craters"
    CRAZING = "crazing"
    CRAWLING = "crawling"
    BARE_PATCHES = "bare patches"
    SHIVERING = "shivering"
    DRY = "dry"
    ROUGH = "rough"
    SHARP = "sharp"


class Ware(Enum):
    FLATWARE = "flatware"
    SMALL_HOLLOWWARE = "small hollowware"
    LARGE_HOLLOWWARE = "large hollowware"
    CUP_OR_MUG = "cup or mug"
    PITCHER = "pitcher"
    COOKING_WARE = "cooking ware"
    STORAGE_WARE = "storage ware"


class Limits(Enum):
    FDA = "FDA"
    CANADA = "Canada"
    EU = "EU 84/500"
    ISO = "ISO 6486-2"


Ran = Fraction | OffTheTile | Unknown
"""Of a tile: mm (0 means looked, no run), off the tile, or not measured."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """The Markdown below the front matter, and the line of the file on which it begins (0 where there is none)."""

    text: str
    path: str
    line: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Studio:
    """studio.yaml; every default of the contract filled in (`stated` False there)."""

    name: Written[str]
    edition: Written[str]
    cone: Written[Cone]
    date: Written[dt.date | Unknown]
    food_rule: Written[FoodRule]
    doubtful: Written[DoubtfulRule]
    most_coats: Written[int]
    usual_coats: Written[Coats | Unknown]
    rim_band: Written[Span]
    lip: Written[Fraction]
    foot_margin: Written[Span]
    run_factor: Written[Fraction]
    labels_read: Written[dt.date | Unknown]
    read_from: Written[Fraction]
    """In mm."""
    chart_paper: Written[Paper]
    paper: Written[Paper]
    units: Written[Units]
    address: Written[str | Unknown]
    students: Written[int]
    """Who a plan is made for, as are `tiles_each` (for each student) and `seats` (students at one table)."""
    tiles_each: Written[int]
    seats: Written[int]
    tag_size: Written[Sides | Unknown]
    """Of one label on the sheets that tile tags are printed on; NOT_KNOWN: plain paper, to be cut."""
    tag_margins: Written[Sides | Unknown]
    """From the paper's left and upper edge to the first label; NOT_KNOWN: the labels stand in the middle."""
    tag_gaps: Written[Sides]
    """Between one label and the next."""
    house_rules: tuple[Written[str], ...]
    theme: Written[str]
    language: Written[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Glaze:
    """A glaze on (or once on) the shelf. `id` is the file's stem."""

    id: str
    name: Written[str]
    mark: Written[str]
    cone: Written[ConeRange | Unknown]
    food_label: Written[FoodLabel | Unknown]
    label_says: Written[str | Unknown]
    label_read: Written[dt.date | Unknown]
    data_sheet: Written[dt.date | Unknown]
    flow: Written[Flow | Unknown]
    goes_on: Written[GoesOn | Unknown]
    rim_band: Written[Span | Unknown]
    coats: Written[CoatRange | Unknown]
    surface: Written[Surface | Unknown]
    clay_shows: Written[ClayShows | Unknown]
    looks: Written[str | Unknown]
    handling: tuple[Written[str], ...]
    status: Written[Status | Unknown]
    lot: Written[str | Unknown]
    retest_since: Written[dt.date | Unknown]
    left: Written[Fraction | Unknown]
    """In litres, as are `jar`; `covers` is in m² one litre covers with one coat."""
    jar: Written[Fraction | Unknown]
    covers: Written[Fraction | Unknown]
    maker: Written[str | Unknown]
    was: Written[str | Unknown]
    body: Body

    @property
    def rim_only(self) -> bool:
        """`goes on` says rim only, or nobody knows where it goes."""
        return self.goes_on.value in (GoesOn.RIM_ONLY, NOT_KNOWN)


@dataclass(frozen=True, slots=True, kw_only=True)
class CombinationEntry:
    """A combination before linking: `base`, `top` and `photo` are still the author's words."""

    path: str
    base: Written[str]
    top: Written[str]
    coats: Written[Coats | Unknown]
    name: Written[str | Unknown]
    looks: Written[str | Unknown]
    photo: Written[str | Unknown]
    on_chart: Written[bool | Unknown]
    keep_off_food: Written[str | None]
    """None where the field is absent; a blank or `?` reason is the text "" and counts."""
    body: Body


@dataclass(frozen=True, slots=True, kw_only=True)
class Clay:
    id: str
    name: Written[str]
    mark: Written[str | Unknown]
    cone: Written[ConeRange | Unknown]
    tone: Written[Tone | Unknown]
    looks: Written[str | Unknown]
    body: Body


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    id: str
    name: Written[str]
    height: Written[Fraction | Unknown]
    """In mm."""
    holds_food: Written[bool | Unknown]
    inside: Written[Inside | Unknown]
    area: Written[Fraction | Unknown]
    """Glazed area in m²."""
    body: Body


@dataclass(frozen=True, slots=True, kw_only=True)
class Firing:
    id: str
    path: str
    cone: Written[Cone]
    date: Written[dt.date | Unknown]
    kiln: Written[str | Unknown]
    rate: Written[Fraction | Unknown]
    """°C per hour over the last 100 °C; `peak` in °C; `hold` in minutes."""
    peak: Written[Fraction | Unknown]
    hold: Written[Fraction | Unknown]
    cooling: Written[str | Unknown]
    witness: tuple[tuple[KilnShelf, Written[Cone]], ...]
    """Only the shelves whose reading is known."""
    body: Body


@dataclass(frozen=True, slots=True, kw_only=True)
class LabReportEntry:
    """A leach report before linking. One glaze: `glaze` set and base, top None; else base and top."""

    id: str
    path: str
    glaze: Written[str] | None
    base: Written[str] | None
    top: Written[str] | None
    ware: Written[Ware]
    limits: Written[Limits]
    coats: Written[Coats | int | Unknown]
    """An int for one glaze alone."""
    clay: Written[str | Unknown]
    cone: Written[Cone | Unknown]
    lead: Written[tuple[Reading, ...]]
    """Empty where no reading is known."""
    cadmium: Written[tuple[Reading, ...]]
    method: Written[str | Unknown]
    lab: Written[str | Unknown]
    date: Written[dt.date | Unknown]
    body: Body


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    id: str
    path: str
    title: Written[str]
    body: Body


@dataclass(frozen=True, slots=True, kw_only=True)
class LogRow:
    """One row of one CSV file, before rows of the same tile are joined. Names are still the author's words."""

    place: Place
    tile: Written[str]
    base: Written[str]
    base_coats: Written[int]
    top: Written[str] | None
    top_coats: Written[int] | None
    clay: Written[str | Unknown]
    firing: Written[str | Unknown]
    kiln_shelf: Written[KilnShelf | Unknown]
    stood: Written[Stood | Unknown]
    ran: Written[Ran]
    faults: Written[tuple[Fault, ...] | Unknown]
    looks: Written[str | Unknown]
    photo: Written[str | Unknown]
    base_lot: Written[str | Unknown]
    top_lot: Written[str | Unknown]


@dataclass(frozen=True, slots=True, kw_only=True)
class Entries:
    """What `validate` gives: every entry of the folder that could be typed, each in order of its path."""

    studio: Studio | None
    glazes: tuple[Glaze, ...]
    combinations: tuple[CombinationEntry, ...]
    clays: tuple[Clay, ...]
    forms: tuple[Form, ...]
    firings: tuple[Firing, ...]
    reports: tuple[LabReportEntry, ...]
    pages: tuple[Page, ...]
    rows: tuple[LogRow, ...]
    withheld: frozenset[tuple[str, str]] = frozenset()
    """What could not be typed and has its own problem already: nobody reports it a second time.

    (folder, word) in casefold: of an entry its stem, name and mark as far as they could be read (`glazes`, `clays`,
    `forms`, `firings`, `lab`, `pages`, `combinations`), of a log row its tile (`tiles`), and file names of photographs
    that such files mention (`photos`).
    """
    withheld_layerings: tuple[tuple[str, str], ...] = ()
    """(base, top) as written in combination entries that are withheld: such a pair has an entry."""
    editions: tuple[PastEdition, ...] = ()
    """Those that were closed, by date."""
    withdrawn: tuple[Withdrawn, ...] = ()
    refused: frozenset[tuple[str, str]] = frozenset()
    """(path, field) whose text has a problem already and counts as NOT_KNOWN; of a log row (`path:line`, column)."""
