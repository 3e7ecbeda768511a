"""Which program has the pages open: one at a time, at a port that stays the same.

The first to `start` holds a lock of the system on `running.json` until it ends, however it ends: a
lock left by a program that is gone does not exist. In the file stand its process and port, so that
a second start can show the pages of the first; the port stays there for the next time.
"""

import json
import os
import sys
from dataclasses import dataclass
from typing import BinaryIO

from dryfit.store.folder import Folder
from dryfit.store.trouble import told

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

FAR = 1 << 30
"""Windows lets nobody read a byte that is locked, so one far behind the text is."""

MOST = {"pid": 1 << 32, "port": 65535, "last port": 65535}
"""What stands in the file, and how large each may be."""

_ROOM = 200
"""Bytes of the file: written over in one go, so that nobody reads half of it."""


@dataclass(frozen=True, slots=True)
class Running:
    """The program that has the pages open already: its process and its port.

    The port is None for the moment in which it has been started but does not answer yet.
    """

    pid: int | None
    port: int | None


class Started:
    """The right to show the pages, held until `stop` or the end of the program.

    Attributes
    ----------
    port
        The port of last time, to be used again; None the first time.
    """

    def __init__(self, file: BinaryIO) -> None:
        self._file = file
        held = _read(file)
        self.port = held.get("port") or held.get("last port")
        self.answers_at(None)
        if sys.platform != "win32":  # a process forked off must not hold the lock any longer
            os.register_at_fork(after_in_child=file.close)

    def answers_at(self, port: int | None) -> None:
        """Tell at which port the pages are."""
        self.port = port or self.port
        held = {"pid": os.getpid(), "port": port, "last port": self.port}
        self._file.seek(0)
        self._file.write(json.dumps(held).encode().ljust(_ROOM))
        self._file.truncate(_ROOM)

    def stop(self) -> None:
        """Give the right back; the port stays in the file."""
        self._file.close()


def start(folder: Folder) -> Started | Running:
    """Take the right to show the pages, or tell who has it."""
    with told(folder.running):
        folder.running.touch()
        file = folder.running.open("r+b", buffering=0)
        if _lock(file):
            return Started(file)
        with file:
            held = _read(file)
    return Running(held.get("pid"), held.get("port"))


def _lock(file: BinaryIO) -> bool:
    """Lock the file for as long as it is open; tell whether that could be done."""
    try:
        if sys.platform == "win32":
            file.seek(FAR)
            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
        else:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except (BlockingIOError, PermissionError):
        return False
    return True


def _read(file: BinaryIO) -> dict[str, int | None]:
    """Read what stands in the file; what is not a number in its place is not there."""
    file.seek(0)
    try:
        held = json.loads(file.read(_ROOM))
    except ValueError:
        return {}
    if not isinstance(held, dict):
        return {}
    return {key: held[key] for key in MOST if _is_number(held.get(key), MOST[key])}


def _is_number(held: object, most: int) -> bool:
    return isinstance(held, int) and 0 < held <= most
