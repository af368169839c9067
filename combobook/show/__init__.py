"""Serve the edition on this machine alone, and publish again whenever the studio's folder changes.

After a change the pages come first, within a second on a studio of usual size; an edition without its printed sheets
is put in place, so that no old chart lies beside new verdicts. The sheets follow by a whole publish in a process of its
own, which ends without a trace when the next change comes. While an error stands, the last good edition stays up and
every page says what is wrong.
"""

from __future__ import annotations

import gc
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Protocol

from combobook.show.board import Board, Outcome
from combobook.show.server import address, serve

__all__ = ["Outcome", "keep_showing"]


class Afterwards(Protocol):
    """What follows a publish of the pages, and is given up when the next change comes."""

    def begin(self) -> None: ...

    def give_up(self) -> None: ...


def keep_showing(
    folder: Path,
    to: Path,
    publish_pages: Callable[[], Outcome],
    say: Callable[[str], None],
    afterwards: Afterwards,
    stop: threading.Event | None = None,
) -> None:
    """Publish, serve `to`, publish again on each change under `folder`, until Ctrl-C (or `stop`).

    `publish_pages` prints its own problems and leaves the last good edition standing; it may not raise.
    """
    from watchfiles import watch

    board = Board()

    def once() -> None:
        afterwards.give_up()
        gc.disable()  # Somebody waits for the page; what is left over is cleared away once it is up.
        try:
            outcome = publish_pages()
            board.put_up(outcome)
        finally:
            gc.enable()
        if outcome.published:
            afterwards.begin()
        gc.collect()

    server = serve(to, board)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        # Watched before the first publish, so that what is saved meanwhile is not missed.
        changes = watch(
            folder, watch_filter=_authored, stop_event=stop, debounce=300, step=40, raise_interrupt=True,
            rust_timeout=500, yield_on_timeout=True,
        )  # fmt: skip
        next(changes, None)
        once()
        say(f"showing {to} at {address(server)} (this machine only); Ctrl-C ends it")
        for changed in changes:
            if changed:
                once()
    except KeyboardInterrupt:
        pass
    finally:
        afterwards.give_up()
        server.shutdown()
        server.server_close()
        thread.join()


def _authored(_change: object, path: str) -> bool:
    """A change that an author made: not an editor's swap file, nor what publish itself keeps."""
    name = Path(path).name
    return not (name.startswith((".", "~$")) or name.endswith("~") or name == "Thumbs.db")
