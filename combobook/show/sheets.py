"""The printed sheets, made after the pages by a whole publish in a process of its own."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
from collections.abc import Callable
from pathlib import Path

_POLITE = 10
"""Niceness: the pages of the next change, and the browser, go first."""


class SheetsAfterwards:
    """One whole publish at a time; given up, it ends with all its workers, and the edition stays as it is."""

    def __init__(self, folder: Path, to: Path, say: Callable[[str], None], *, strict: bool) -> None:
        more = ("--strict",) if strict else ()
        self._command = (sys.executable, "-m", "combobook", "publish", str(folder), "--to", str(to), *more)
        self._say = say
        self._running: subprocess.Popen[bytes] | None = None

    def begin(self) -> None:
        """Start; when the sheets are there, it is said."""
        quiet = subprocess.DEVNULL
        running = subprocess.Popen(
            self._command, stdin=quiet, stdout=quiet, stderr=quiet, start_new_session=True
        )
        if hasattr(os, "setpriority"):
            try:
                os.setpriority(os.PRIO_PROCESS, running.pid, _POLITE)
            except OSError:  # It ended at once, or may not be slowed: no harm.
                pass
        self._running = running
        threading.Thread(target=self._wait, args=(running,), daemon=True).start()

    def give_up(self) -> None:
        """End it, wherever it is: publishing is one exchange, which has happened or has not."""
        running, self._running = self._running, None
        if running is None or running.poll() is not None:
            return
        if hasattr(os, "killpg"):
            os.killpg(running.pid, signal.SIGKILL)
        else:
            running.kill()
        running.wait()

    def _wait(self, running: subprocess.Popen[bytes]) -> None:
        code = running.wait()
        if self._running is not running:
            return  # Given up.
        if code == 0:
            self._say("the printed sheets are there too")
        else:
            self._say("the printed sheets could not be made: `combobook publish` says why")
