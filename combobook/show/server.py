"""The server: the edition that is in place at the moment of asking, to this machine alone."""

from __future__ import annotations

import hashlib
import posixpath
import re
from functools import partial
from http import HTTPStatus
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from io import BytesIO
from pathlib import Path
from typing import BinaryIO
from urllib.parse import parse_qs, unquote, urlsplit

from combobook.show.board import GONE, STATE, Board, own_file

HERE = "127.0.0.1"
# The same address after a restart keeps the classroom screen's tab alive; where it is taken, any other will do.
_USUAL_PORT = 8417
_BESIDE_THE_SITE = ("print", "data")
_SCRIPTS = re.compile(rb'<script[^>]* src="([^":]+\.js)"')
_NO_PAGE = "There is no such page in the edition that is in place. If it is about to be made, it opens here by itself."


def serve(to: Path, board: Board) -> ThreadingHTTPServer:
    """A server for the edition in `to`, bound to the loopback address only; not yet running."""
    handler = partial(EditionHandler, edition=to.absolute(), board=board)
    try:
        return _QuietServer((HERE, _USUAL_PORT), handler)
    except OSError:
        return _QuietServer((HERE, 0), handler)


def address(server: ThreadingHTTPServer) -> str:
    """Where the server answers, as a browser wants it."""
    return f"http://{HERE}:{server.server_address[1]}/"


class EditionHandler(SimpleHTTPRequestHandler):
    """The files of the edition that is in place; nothing beside it, no lists of folders."""

    def __init__(self, *args: object, edition: Path, board: Board) -> None:
        self._edition, self._board = edition, board
        super().__init__(*args)  # type: ignore[arg-type]

    def send_head(self) -> BytesIO | BinaryIO | None:
        host = (self.headers.get("Host") or "").rpartition(":")[0] or self.headers.get("Host")
        if host not in (HERE, "localhost"):
            # A page from elsewhere that names this machine under another name has no business here.
            self.send_error(HTTPStatus.MISDIRECTED_REQUEST)
            return None
        asked = urlsplit(self.path)
        if asked.path == STATE:
            page = parse_qs(asked.query).get("page", ["/"])[0]
            return self._answer(HTTPStatus.OK, self._board.state(self._version(page)), "application/json")
        if own := own_file(asked.path):
            return self._answer(HTTPStatus.OK, *own)
        path = self._file(self.path)
        if path is None:
            return self._answer(HTTPStatus.NOT_FOUND, self._board.no_page(_NO_PAGE), "text/html; charset=utf-8")
        if path.suffix != ".html":
            return super().send_head()
        page_now = self._board.with_note(path.read_bytes(), self._version(self.path))
        return self._answer(HTTPStatus.OK, page_now, "text/html; charset=utf-8")

    def _answer(self, status: HTTPStatus, data: bytes, kind: str) -> BytesIO:
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(data)))
        self.end_headers()
        return BytesIO(data)

    def _file(self, address: str) -> Path | None:
        """The edition's file at an address, and no link that leads out of it."""
        path = Path(self.translate_path(address))
        inside = not path.is_symlink() and path.is_file() and path.resolve().is_relative_to(self._edition.resolve())
        return path if inside else None

    def _version(self, address: str) -> str:
        """Changes when what a page shows does: its own bytes, or those of a script that it loads."""
        path = self._file(address)
        if path is None:
            return GONE
        try:
            page = path.read_bytes()
            digest = hashlib.sha256(page)
            for script in _SCRIPTS.findall(page) if path.suffix == ".html" else ():
                digest.update(path.parent.joinpath(script.decode()).read_bytes())
        except OSError:  # Just exchanged for another edition: the next time it is asked.
            return GONE
        return digest.hexdigest()[:32]

    def translate_path(self, path: str) -> str:
        """The site is the top; print/ and data/, which pages reach by `../`, lie beside it as they do on disk."""
        wanted = posixpath.normpath("/" + unquote(path.partition("?")[0].partition("#")[0])).lstrip("/")
        parts = [part for part in wanted.split("/") if part not in ("", ".", "..")]
        if any("\\" in part or "\0" in part or ":" in part for part in parts):
            return str(self._edition / "site" / "no such page")
        top = self._edition if parts[:1] and parts[0] in _BESIDE_THE_SITE else self._edition / "site"
        found = top.joinpath(*parts)
        return str(found / "index.html" if found.is_dir() else found)

    def end_headers(self) -> None:
        self.send_header("Cache-Control", "no-store")
        self.send_header("X-Content-Type-Options", "nosniff")
        super().end_headers()

    def log_message(self, format: str, *args: object) -> None:
        """Requests are nobody's news."""


class _QuietServer(ThreadingHTTPServer):
    daemon_threads = True
    allow_reuse_address = False

    def handle_error(self, request: object, client_address: object) -> None:
        """A browser that hung up is nobody's news either."""
