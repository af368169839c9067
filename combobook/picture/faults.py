"""What can be wrong with a photograph, in words: one table of codes."""

from __future__ import annotations

from combobook.pictures import FEW_PIXELS, MOST_BYTES, MOST_PIXELS
from combobook.problems import Place, Problem, Severity

_MEGAPIXELS, _MEGABYTES = MOST_PIXELS // 1_000_000, MOST_BYTES // 1_000_000
_FAULTS: dict[str, tuple[Severity, str, str]] = {
    "photo-missing": (
        Severity.ERROR,
        "no such file in photos/",
        "put the file there, or take its name out of the entries that show it",
    ),
    "photo-outside": (
        Severity.ERROR,
        "the photo is a link that leads out of photos/, where nothing is read",
        "put the picture itself into photos/",
    ),
    "photo-closed": (
        Severity.ERROR,
        "the photo cannot be read: {why}",
        "give the file to the one who publishes: its permissions keep it closed",
    ),
    "photo-empty": (
        Severity.ERROR,
        "the photo is an empty file",
        "copy it from the phone or camera again",
    ),
    "photo-too-large": (
        Severity.ERROR,
        f"the photo is too large: {{pixels}} more than is read, {_MEGAPIXELS} megapixels and {_MEGABYTES} MB",
        "make it smaller in a photo program; nothing over 1200 pixels a side is shown anyway",
    ),
    "photo-unreadable": (
        Severity.ERROR,
        "the file's name says it is a picture ({suffix}), but what is in it is no JPEG, PNG, WebP or HEIC",
        "save the picture as JPEG and put that file in its place",
    ),
    "photo-damaged": (
        Severity.ERROR,
        "the picture is damaged or was cut short",
        "copy it from the phone or camera again; if it opens in a photo program, save it anew from there",
    ),
    "photo-mislabelled": (
        Severity.WARNING,
        "the file's name says {said}, but what is in it is {kind}; it is shown all the same",
        "rename it to `{better}`, there and in what names it",
    ),
    "photo-small": (
        Severity.WARNING,
        f"the picture is only {{width}} × {{height}} pixels; under {FEW_PIXELS} a glaze cannot be judged from it",
        "use the original and not a preview; it is never enlarged",
    ),
    "picture-cache": (
        Severity.ERROR,
        "the pictures made from this photo cannot be kept in `{cache}`: {why}",
        "make room there, or let the one who publishes write there",
    ),
}
CODES: tuple[str, ...] = tuple(_FAULTS)
"""Every code this stage can report."""


def fault(code: str, name: str, **facts: object) -> Problem:
    """The problem with the photo `name`, at the file's first line. Raises KeyError for a code that is none."""
    severity, message, help_ = _FAULTS[code]
    return Problem(
        place=Place(path=f"photos/{name}", line=1, column=1),
        severity=severity,
        code=code,
        message=message.format(**facts),
        help=help_.format(**facts),
    )
