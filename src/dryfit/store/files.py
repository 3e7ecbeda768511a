"""Files written whole or not at all, and there to stay once written."""

import os
import secrets
import sys
import time
from contextlib import suppress
from pathlib import Path

UNFINISHED = ".unfinished"
YOUNG = 3600.0
"""An unfinished file of less than so many seconds may still be written by another program."""


def write_whole(path: Path, data: bytes) -> None:
    """Write a file beside its place, bring it to the disk, and only then give it its name."""
    beside = path.with_name(f"{path.name}.{secrets.token_hex(4)}{UNFINISHED}")
    try:
        with beside.open("xb") as file:
            file.write(data)
            file.flush()
            to_disk(file.fileno())
        settle(beside, path)
    finally:
        beside.unlink(missing_ok=True)


def write_secret(path: Path, text: str) -> None:
    """Write a new file whole that only its owner may read."""
    beside = path.with_name(f"{path.name}.{secrets.token_hex(4)}{UNFINISHED}")
    try:
        with open(beside, "x", encoding="ascii", opener=_for_owner) as file:
            file.write(text)
        settle(beside, path)
    finally:
        beside.unlink(missing_ok=True)


def _for_owner(path: str, flags: int) -> int:
    return os.open(path, flags, 0o600)


def settle(beside: Path, path: Path) -> None:
    """Give a finished file its name, to stay."""
    beside.replace(path)
    if os.name != "nt":  # Windows opens no folders, and needs it less
        folder = os.open(path.parent, os.O_RDONLY)
        try:
            to_disk(folder)
        finally:
            os.close(folder)


def to_disk(descriptor: int) -> None:
    """Wait until what was written lies on the disk."""
    if sys.platform == "darwin":  # there fsync leaves it in the disk's own memory
        import fcntl

        with suppress(OSError):  # not every disk knows it
            fcntl.fcntl(descriptor, fcntl.F_FULLFSYNC)
            return
    os.fsync(descriptor)


def sweep(folder: Path) -> None:
    """Take away what was left unfinished when a program was cut off."""
    for path in folder.glob(f"*{UNFINISHED}"):
        with suppress(FileNotFoundError):  # another program has finished it meanwhile
            if path.stat().st_mtime < time.time() - YOUNG:
                path.unlink()
