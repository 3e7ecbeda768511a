"""A rebuild as one file to mail: its text with its readings, its journal and its photographs.

A zip with fixed names: `rebuild.yaml`, `journal.json`, `photographs.json`, and the photographs in
`photographs/`, each by the hash of its bytes. `pack` makes one; `unpack` makes a new rebuild of
one, all of it or nothing. `spelling` writes and reads the lists, `unzip` opens a zip.
"""

import sqlite3
import zipfile
from dataclasses import dataclass
from typing import BinaryIO

from dryfit.document.characters import encode
from dryfit.quantities.finding import Finding
from dryfit.store.journal import note_in
from dryfit.store.opening import Store
from dryfit.store.photographs import Kept, keep, photograph, picture_in, pictures
from dryfit.store.readings import as_it_stands, written_out
from dryfit.store.revisions import Revision, begin_in, refuse_text
from dryfit.store.spelling import (
    Sent,
    SentPicture,
    read_journal,
    read_pictures,
    spell_journal,
    spell_pictures,
)
from dryfit.store.trouble import Trouble
from dryfit.store.unzip import FOLDER, JOURNAL, LIST, TEXT, Parcel, open_parcel


@dataclass(frozen=True, slots=True)
class Unpacked:
    """The rebuild that was made of a parcel, and what of it could not be kept."""

    revision: Revision
    findings: tuple[Finding, ...]


def pack(store: Store, rebuild: int, file: BinaryIO) -> tuple[Finding, ...]:
    """Write a rebuild as a zip; give what could not be written into its text."""
    held, shown = as_it_stands(store, rebuild), pictures(store, rebuild)
    exported = written_out(held)
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr(TEXT, encode(exported.text))
        archive.writestr(JOURNAL, spell_journal(held.entries))
        archive.writestr(LIST, spell_pictures(shown))
        for digest in dict.fromkeys(picture.sha256 for picture in shown):
            data = photograph(store, digest)
            archive.writestr(f"{FOLDER}{digest}.jpg", data, zipfile.ZIP_STORED)
    return exported.findings


def unpack(store: Store, file: BinaryIO) -> Unpacked:
    """Make a new rebuild of a zip."""
    with open_parcel(file) as parcel:
        text = parcel.read(TEXT) or b""
        refuse_text(text)
        entries = read_journal(parcel.read(JOURNAL) or b"[]")
        listed = read_pictures(parcel.read(LIST) or b"[]")
        kept, findings = _photographs(store, parcel, listed)
    with store.database.writing() as connection:
        begun = begin_in(store, connection, text)
        _note_all(connection, begun, entries)
        for each in listed:
            if each.sha256 in kept:
                photo = kept[each.sha256]
                picture_in(connection, begun.rebuild, photo, each.shows, each.caption, at=each.at)
    return Unpacked(begun, tuple(findings))


def _photographs(
    store: Store, parcel: Parcel, listed: list[SentPicture]
) -> tuple[dict[str, Kept], list[Finding]]:
    """Keep the photographs, one after the other; all are known before a row is written."""
    kept: dict[str, Kept] = {}
    findings = []
    for sent in {each.sha256: each for each in listed}.values():
        data = parcel.read(f"{FOLDER}{sent.sha256}.jpg")
        if data is None:
            findings.append(_left_out(sent, "it is not in the zip"))
            continue
        try:
            kept[sent.sha256] = keep(store, data)
        except Trouble as trouble:
            if not trouble.finding.code.startswith("photograph."):
                raise
            findings.append(_left_out(sent, trouble.finding.message))
    return kept, findings


def _note_all(connection: sqlite3.Connection, begun: Revision, entries: list[Sent]) -> None:
    numbers: dict[int | None, int] = {}
    for sent in entries:
        entry = note_in(
            connection,
            begun.rebuild,
            begun.number,
            sent.wrote,
            at=sent.at,
            strikes=numbers.get(sent.strikes),
        )
        numbers[sent.number] = entry.number


def _left_out(sent: SentPicture, why: str) -> Finding:
    named = " ".join(f"'{sent.shows or sent.caption or sent.sha256}'".split())
    message = f"the photograph {named} was left out: {why}"
    return Finding("parcel.photograph", (), message, "ask for it to be sent by itself", "note")
