"""One step that puts a finished folder in the place of another."""

from __future__ import annotations

import ctypes
import errno
import os
from functools import cache
from pathlib import Path
from typing import Any

_AT_FDCWD = -100  # Linux, fcntl.h: the path counts from the current folder
_RENAME_EXCHANGE = 2  # Linux, renameat2(2): both names stay, what they name changes places
# What a kernel or file system answers that has no such call.
_NOT_THERE = {errno.ENOSYS, errno.EINVAL, errno.EOPNOTSUPP, errno.ENOTSUP}


def swap(new: Path, place: Path, spare: Path) -> Path | None:
    """Put `new` at `place`; return where the old folder is now, None if there was none.

    With renameat2 nobody ever sees `place` missing or half. Without it there are two renames,
    and for a moment no folder: `recover` puts the old one back if we are killed just there.
    """
    if not place.exists() or not any(place.iterdir()):
        new.rename(place)  # POSIX lets a folder take the place of an empty one
        return None
    if exchange(new, place):
        return new
    place.rename(spare)
    try:
        new.rename(place)
    except OSError:
        spare.rename(place)
        raise
    return spare


def recover(place: Path, spare: Path) -> None:
    """Undo the first of two renames, if an earlier run was killed between them."""
    if spare.exists() and not place.exists():
        spare.rename(place)


def exchange(one: Path, other: Path) -> bool:
    """Let two folders change places in one step; False where the system has no such call."""
    renameat2 = _renameat2()
    if renameat2 is None:
        return False
    names = os.fsencode(one), os.fsencode(other)
    if renameat2(_AT_FDCWD, names[0], _AT_FDCWD, names[1], _RENAME_EXCHANGE) == 0:
        return True
    number = ctypes.get_errno()
    if number in _NOT_THERE:
        return False
    raise OSError(number, os.strerror(number), str(other))


@cache
def _renameat2() -> Any:  # noqa: ANN401 - a C function
    try:
        call = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError, TypeError):  # no glibc of 2.28 or later
        return None
    call.argtypes = [ctypes.c_int, ctypes.c_char_p, ctypes.c_int, ctypes.c_char_p, ctypes.c_uint]
    return call
