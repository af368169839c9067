"""Serve the edition on this machine alone, and publish again whenever the studio's folder changes."""

from __future__ import annotations

import posixpath
import threading
from collections.abc import Callable
from functools import partial
from http import HTTPStatus
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from io import BytesIO
from pathlib import Path
from typing import BinaryIO
from urllib.parse import unquote

HERE = "127.0.0.1"
# The same address after a restart keeps the classroom screen's tab alive; where it is taken, any other will do.
_USUAL_PORT = 8417
_BESIDE_THE_SITE = ("print", "data")


def keep_showing(
    folder: Path,
    to: Path,
    publish_once: Callable[[], None],
    say: Callable[[str], None],
    stop: threading.Event | None = None,
) -> None:
    """Publish, serve `to`, publish again on each change under `folder`, until Ctrl-C (or `stop`).

    `publish_once` prints its own problems and leaves the last good edition standing; it may not raise.
    """
    from watchfiles import watch

    publish_once()
    server = serve(to)
    say(f"showing {to} at {address(server)} (this machine only); Ctrl-C ends it")
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        for _ in watch(folder, watch_filter=_authored, stop_event=stop, debounce=400, raise_interrupt=True):
            publish_once()
    except KeyboardInterrupt:
        pass
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


def serve(to: Path) -> ThreadingHTTPServer:
    """A server for the edition in `to`, bound to the loopback address only; not yet running."""
    handler = partial(EditionHandler, edition=to.absolute())
    try:
        return _QuietServer((HERE, _USUAL_PORT), handler)
    except OSError:
        return _QuietServer((HERE, 0), handler)


def address(server: ThreadingHTTPServer) -> str:
    """Where the server answers, as a browser wants it."""
    return f"http://{HERE}:{server.server_address[1]}/"


class EditionHandler(SimpleHTTPRequestHandler):
    """The files of the edition that is in place at the moment of asking; nothing beside it, no lists of folders."""

    def __init__(self, *args: object, edition: Path) -> None:
        self._edition = edition
        super().__init__(*args)  # type: ignore[arg-type]

    def send_head(self) -> BytesIO | BinaryIO | None:
        host = (self.headers.get("Host") or "").rpartition(":")[0] or self.headers.get("Host")
        if host not in (HERE, "localhost"):
            # A page from elsewhere that names this machine under another name has no business here.
            self.send_error(HTTPStatus.MISDIRECTED_REQUEST)
            return None
        path = Path(self.translate_path(self.path))
        if path.is_symlink() or not path.is_file() or not path.resolve().is_relative_to(self._edition.resolve()):
            self.send_error(HTTPStatus.NOT_FOUND, explain="There is no such page in the edition that is in place.")
            return None
        return super().send_head()

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


def _authored(_change: object, path: str) -> bool:
    """A change that an author made: not an editor's swap file, nor what publish itself keeps."""
    name = Path(path).name
    return not (name.startswith((".", "~$")) or name.endswith("~") or name == "Thumbs.db")
