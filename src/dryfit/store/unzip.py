"""A zip from elsewhere opened without trusting a word of it.

Only the names of a parcel are read, each to a limit of its own, whatever its head says; nothing is
ever written under a name from a zip.
"""

import re
import stat
import struct
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from typing import BinaryIO

from dryfit.document.characters import MOST_BYTES as MOST_TEXT
from dryfit.store.picture import MOST_BYTES as MOST_PHOTOGRAPH
from dryfit.store.trouble import Trouble

TEXT, JOURNAL, LIST, FOLDER = "rebuild.yaml", "journal.json", "photographs.json", "photographs/"
LIMITS = {TEXT: MOST_TEXT, JOURNAL: 10_000_000, LIST: 10_000_000, FOLDER: 0}
"""Most bytes of each file, unpacked."""

PHOTOGRAPH = re.compile(r"photographs/[0-9a-f]{64}\.jpg")
MOST_PHOTOGRAPHS = 1000
MOST_UNPACKED = 2_000_000_000

_BROKEN = (
    *(zipfile.BadZipFile, zlib.error, struct.error, EOFError, OSError),
    *(ValueError, OverflowError, NotImplementedError, RuntimeError),
)
"""What the reader of zips raises on files that are broken, locked or made to harm."""


class Parcel:
    """An open zip whose names have been looked at."""

    def __init__(self, archive: zipfile.ZipFile) -> None:
        self._archive = archive
        self._held = {info.filename: info for info in archive.infolist()}

    def names(self) -> list[str]:
        """List the files."""
        return list(self._held)

    def read(self, name: str) -> bytes | None:
        """Unpack one file, no further than its limit; None if it is not there."""
        info, most = self._held.get(name), _limit(name)
        if info is None:
            return None
        with _told(), self._archive.open(info) as file:
            data = file.read(most + 1)
        if len(data) > most:
            raise _too_large(name, most)
        return data


@contextmanager
def open_parcel(file: BinaryIO) -> Iterator[Parcel]:
    """Open a zip and look at every name in it before anything is unpacked."""
    with _told():
        archive = zipfile.ZipFile(file)
    with archive:
        _look(archive.infolist())
        yield Parcel(archive)


def _look(infos: list[zipfile.ZipInfo]) -> None:
    for info in infos:
        _look_at(info)
    names = [info.filename for info in infos]
    if len(set(names)) < len(names):
        raise _refused("a name stands in the zip twice")
    if len(names) > MOST_PHOTOGRAPHS + len(LIMITS):
        raise _refused(f"the zip holds {len(names)} files; at most {MOST_PHOTOGRAPHS} photographs")
    whole = sum(info.file_size for info in infos)
    if whole > MOST_UNPACKED:
        most = f"{MOST_UNPACKED / 1e9:g} GB"
        raise _refused(f"the zip swells to {whole / 1e9:.1f} GB; at most {most} are read")
    if TEXT not in names:
        raise _refused(f"the zip holds no '{TEXT}'")


def _look_at(info: zipfile.ZipInfo) -> None:
    """Refuse what dryfit would not have put into a zip."""
    name = info.orig_filename  # newer Pythons may take another one from an extra field
    if name != info.filename or not (name in LIMITS or PHOTOGRAPH.fullmatch(name)):
        raise _refused(f"the zip holds '{name[:80]}', which is no part of a rebuild")
    if stat.S_ISLNK(info.external_attr >> 16):
        raise _refused(f"'{name}' in the zip is a link to another file")
    if info.flag_bits & 1:
        raise _refused(f"'{name}' in the zip is locked by a password")
    if info.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
        raise _refused(f"'{name}' is packed in a way that is not read")
    if info.file_size > _limit(name):
        raise _too_large(name, _limit(name))


def _limit(name: str) -> int:
    return LIMITS.get(name, MOST_PHOTOGRAPH)


@contextmanager
def _told() -> Iterator[None]:
    try:
        yield
    except _BROKEN as error:
        message = f"the zip cannot be read: {error}"
        way_out = "ask for it again; it may have been cut off on its way"
        raise Trouble("parcel.zip", message, way_out) from error


def _refused(message: str) -> Trouble:
    return Trouble("parcel.refused", message, "send the zip as dryfit wrote it")


def _too_large(name: str, most: int) -> Trouble:
    return _refused(f"'{name}' in the zip is larger than {most / 1e6:g} MB")
