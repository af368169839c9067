"""What every page says beside its own words while it is shown: what stands in the way of a newer edition."""

from __future__ import annotations

import json
from dataclasses import dataclass
from html import escape

from combobook.theme import BASIC_THEME, themes_folder

AREA = "/~show/"
"""Addresses of our own, which no page of an edition can have."""
SCRIPT, STYLE, STATE = f"{AREA}follow.js", f"{AREA}follow.css", f"{AREA}state"
GONE = "gone"
"""The version of a page that is not there."""
_MENDED = "As soon as it is mended, this page shows what is new."
_LAST_GOOD = f"<strong>This is the last good book.</strong> An error stands in the way of a newer one. {_MENDED}"
_IN_THE_WAY = f"<strong>An error stands in the way.</strong> {_MENDED}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What a publish came to. Where it was stopped, `errors` says why, as the terminal does; else it is empty."""

    published: bool
    errors: str = ""


class Board:
    """The newest outcome, read by every request; putting up a whole value at once needs no lock."""

    def __init__(self) -> None:
        self._outcome = Outcome(published=False)

    def put_up(self, outcome: Outcome) -> None:
        self._outcome = outcome

    @property
    def errors(self) -> str:
        return self._outcome.errors

    def state(self, version: str) -> bytes:
        """What the script asks for: the version of its page, and the errors that stand."""
        return json.dumps({"version": version, "errors": self.errors}).encode()

    def with_note(self, page: bytes, version: str, lead: str = _LAST_GOOD) -> bytes:
        """A page as it is served: with the errors, as text, and with the script that follows what becomes of it."""
        head = f'<link rel="stylesheet" href="{STYLE}"><script src="{SCRIPT}" defer data-version="{version}"></script>'
        hidden = "" if self.errors else " hidden"
        note = (
            f'<div id="show-note" role="alert"{hidden}><p>{lead}</p>'
            f'<pre tabindex="0">{escape(self.errors)}</pre></div>'
            '<p id="show-ended" role="status" hidden>Nobody publishes this book at the moment: it may be old.</p>'
        )
        return _before(_before(page, b"</head>", head.encode()), b"</body>", note.encode())

    def no_page(self, said: str) -> bytes:
        """What stands at an address that the edition does not have."""
        page = (
            '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>No such page</title></head>'
            f"<body><main><h1>Not here</h1><p>{escape(said)}</p></main></body></html>"
        )
        return self.with_note(page.encode(), GONE, lead=_IN_THE_WAY)


def own_file(address: str) -> tuple[bytes, str] | None:
    """The script or the style at one of our own addresses, and its kind; None for any other."""
    kinds = {SCRIPT: ("script/follow.js", "text/javascript"), STYLE: ("style/follow.css", "text/css")}
    if address not in kinds:
        return None
    path, kind = kinds[address]
    return (themes_folder() / BASIC_THEME / path).read_bytes(), f"{kind}; charset=utf-8"


def _before(page: bytes, tag: bytes, more: bytes) -> bytes:
    """`more` before the last such tag; at the end of a page that has none."""
    at = page.rfind(tag)
    return page + more if at < 0 else page[:at] + more + page[at:]
