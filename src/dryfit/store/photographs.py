"""Photographs of a rebuild: each file under the hash of its bytes, and what it shows in a row.

The file is on the disk before its row is written, so a row never points at nothing. The same
photograph sent twice is one file.
"""

import re
import sqlite3
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from dryfit.store.files import write_whole
from dryfit.store.journal import LONGEST, LONGEST_STEP, refuse_words
from dryfit.store.opening import Store, now
from dryfit.store.picture import make_plain, thumbnail_of
from dryfit.store.revisions import newest_in
from dryfit.store.trouble import Trouble, told

HASH = re.compile(r"[0-9a-f]{64}")


@dataclass(frozen=True, slots=True)
class Picture:
    """A photograph where it belongs.

    Attributes
    ----------
    number
        Its own, counted up over all rebuilds.
    sha256
        The hash of its bytes, by which it is fetched.
    shows, caption
        Which part, check or step it is of, and what is to be seen.
    width, height
        Its size in pixels.
    at
        When it came, in universal time.
    """

    number: int
    sha256: str
    shows: str
    caption: str
    width: int
    height: int
    at: str


@dataclass(frozen=True, slots=True)
class Kept:
    """A photograph whose files are on the disk: its hash, bytes and size in pixels."""

    sha256: str
    bytes: int
    width: int
    height: int


def add_photograph(
    store: Store, rebuild: int, data: bytes, *, shows: str = "", caption: str = ""
) -> Picture:
    """Keep a photograph of a rebuild."""
    _refuse_words(shows, caption)
    kept = keep(store, data)
    with store.database.writing() as connection:
        newest_in(store, connection, rebuild)
        return picture_in(connection, rebuild, kept, shows, caption, at=now())


def keep(store: Store, data: bytes) -> Kept:
    """Write a photograph and its thumbnail, if they are not there as they should be."""
    plain = make_plain(data)
    digest = sha256(plain.data).hexdigest()
    for folder, wanted in (
        (store.folder.photographs, plain.data),
        (store.folder.thumbnails, plain.small),
    ):
        path = _path(folder, digest)
        with told(path):
            if not path.exists() or path.read_bytes() != wanted:
                write_whole(path, wanted)
    return Kept(digest, len(plain.data), plain.width, plain.height)


def picture_in(
    connection: sqlite3.Connection,
    rebuild: int,
    kept: Kept,
    shows: str,
    caption: str,
    *,
    at: str,
) -> Picture:
    """Put a photograph into a rebuild within a larger change."""
    _refuse_words(shows, caption)
    connection.execute(
        "INSERT OR IGNORE INTO photograph VALUES (?, ?, ?, ?, ?)",
        (kept.sha256, kept.bytes, kept.width, kept.height, at),
    )
    made = connection.execute(
        "INSERT INTO picture (rebuild, photograph, shows, caption, at) VALUES (?, ?, ?, ?, ?)",
        (rebuild, kept.sha256, shows, caption, at),
    )
    number = made.lastrowid or 0
    return Picture(number, kept.sha256, shows, caption, kept.width, kept.height, at)


def pictures(store: Store, rebuild: int) -> list[Picture]:
    """List the photographs of a rebuild as they came."""
    rows = (
        "SELECT picture.id, sha256, shows, caption, width, height, picture.at FROM picture "
        "JOIN photograph ON sha256 = photograph WHERE rebuild = ? ORDER BY picture.id"
    )
    with store.database.reading() as connection:
        return [Picture(*row) for row in connection.execute(rows, (rebuild,))]


def photograph(store: Store, digest: str) -> bytes:
    """Give the bytes of a photograph; those that are not what was kept are refused."""
    path = _path(store.folder.photographs, digest)
    if not path.exists():
        raise Trouble("photograph.gone", f"there is no photograph {digest}", "look at the list")
    with told(path):
        data = path.read_bytes()
    if sha256(data).hexdigest() != digest:
        message = f"the photograph {path} is damaged"
        raise Trouble("photograph.damaged", message, "send it again: it then takes its place")
    return data


def thumbnail(store: Store, digest: str) -> bytes:
    """Give a photograph small; made anew where it is missing."""
    path = _path(store.folder.thumbnails, digest)
    if path.exists():
        with told(path):
            return path.read_bytes()
    data = thumbnail_of(photograph(store, digest))
    with told(path):
        write_whole(path, data)
    return data


def _refuse_words(shows: str, caption: str) -> None:
    refuse_words(shows, LONGEST)
    refuse_words(caption, LONGEST_STEP)


def _path(folder: Path, digest: str) -> Path:
    """Name a file by a hash, and by nothing else."""
    if not HASH.fullmatch(digest):
        raise Trouble("photograph.gone", "there is no such photograph", "look at the list")
    return folder / f"{digest}.jpg"
