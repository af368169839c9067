"""Two folders change places in one step, where the system can; else in two renames, the first undone if need be."""

from __future__ import annotations

import ctypes
import errno
import os
import secrets
import sys
from pathlib import Path

# linux/fs.h and <sys/stdio.h>: RENAME_EXCHANGE of renameat2(2), RENAME_SWAP of renamex_np(2).
_RENAME_EXCHANGE = 2
_RENAME_SWAP = 2
_AT_FDCWD = -100
_NOT_HERE = {errno.ENOSYS, errno.EINVAL, errno.ENOTSUP, errno.EPERM}


def exchange(new: Path, to: Path) -> None:
    """Afterwards `to` is what `new` was; `new` is what `to` was, or is gone where there was nothing.

    Both lie in one folder. Raises OSError, with `to` as it was.
    """
    if not to.exists():
        os.rename(new, to)
    elif not _in_one_step(new, to):
        _in_two(new, to)


def _in_one_step(new: Path, to: Path) -> bool:
    """True when the system exchanged them; False where it has no such call. Raises OSError where it refused."""
    try:
        library = ctypes.CDLL(None, use_errno=True)
        if sys.platform == "darwin":
            done = library.renamex_np(os.fsencode(new), os.fsencode(to), ctypes.c_uint(_RENAME_SWAP))
        else:
            done = library.renameat2(
                _AT_FDCWD, os.fsencode(new), _AT_FDCWD, os.fsencode(to), ctypes.c_uint(_RENAME_EXCHANGE)
            )
    except (AttributeError, OSError, TypeError):
        return False
    if done == 0:
        return True
    failure = ctypes.get_errno()
    if failure in _NOT_HERE:
        return False
    raise OSError(failure, os.strerror(failure), str(to))


def _in_two(new: Path, to: Path) -> None:
    """For an instant nothing is at `to`; a crash in that instant is put right by the next publish."""
    aside = to.parent / f".{to.name}-old-{secrets.token_hex(4)}"
    os.rename(to, aside)
    try:
        os.rename(new, to)
    except OSError:
        os.rename(aside, to)
        raise
    os.rename(aside, new)
