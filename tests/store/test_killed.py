"""A program killed while it writes: what it was told is kept is there afterwards.

SIGKILL lets nothing be tidied up. It does not take the power away: what the system has taken from
the program is then still written, so that these tests do not prove the calls that wait for the
disk. They are counted in the last one.
"""

import os
import random
import signal
import sqlite3
import subprocess
import sys
import threading
from hashlib import sha256
from pathlib import Path

import pytest
from tests.store.samples import ENVIRONMENT

from dryfit.store import files
from dryfit.store.journal import Reading, journal
from dryfit.store.opening import Store, open_store
from dryfit.store.photographs import add_photograph, photograph, pictures
from dryfit.store.revisions import history, newest, revision

WRITER = Path(__file__).with_name("writer.py")

pytestmark = pytest.mark.skipif(os.name == "nt", reason="Windows has no SIGKILL")


def killed(folder: Path, first: int, last: int, after: float) -> list[str]:
    """Let a program write and kill it so many seconds after its first words; give its lines."""
    words = [sys.executable, str(WRITER), str(folder), str(first), str(last)]
    with subprocess.Popen(words, stdout=subprocess.PIPE, text=True, env=ENVIRONMENT) as process:
        assert process.stdout
        assert process.stdout.readline() == "ready\n"
        clock = threading.Timer(after, process.send_signal, (signal.SIGKILL,))
        clock.start()
        said = process.stdout.read()
        clock.cancel()
    assert process.returncode in (0, -signal.SIGKILL)
    return [line for line in said.splitlines(keepends=True) if line.endswith("\n")]


def missing(store: Store, lines: list[str]) -> list[str]:
    """List what was acknowledged and is not there."""
    text = newest(store, 1).text
    read = {entry.number: entry.wrote for entry in journal(store, 1)}
    shown = {picture.caption: picture.sha256 for picture in pictures(store, 1)}
    lost = []
    for line in lines:
        kind, number, key = line.split()
        if kind == "edit":
            there = f"size {number}: {number}.50\n" in text
            there = there and f"size {number}: " in revision(store, 1, int(key)).text
        elif kind == "reading":
            there = read.get(int(key)) == Reading("end float", f"{number}.75")
        else:
            there = shown.get(f"n{number}") == key
            there = there and sha256(photograph(store, key)).hexdigest() == key
        lost += [] if there else [line]
    return lost


def kill_often(folder: Path, writes: int, least: int, longest: float) -> None:
    """Kill at random moments until so many writes were acknowledged, in so many runs at least."""
    moments, said, kills, first = random.Random(20), list[str](), 0, 0
    while len(said) < writes or kills < least:
        lines = killed(folder, first, first + writes, moments.uniform(0, longest))
        said += lines
        kills += 1
        first += len(lines) + 3  # what was under way when it was killed may be there or not
        store = open_store(folder)
        try:
            assert missing(store, said) == []
        finally:
            store.close()


def test_what_was_acknowledged_is_there_after_a_kill(tmp_path: Path) -> None:
    """Pull the program from under 30 writes: every size, reading and photograph is there."""
    kill_often(tmp_path, 30, 3, 0.25)


@pytest.mark.prove
def test_500_writes_and_kills_at_random_moments(tmp_path: Path) -> None:
    """The same for 500 writes: nothing that was acknowledged is ever lost."""
    kill_often(tmp_path, 500, 25, 0.5)


def test_a_kill_between_photograph_and_row(tmp_path: Path) -> None:
    """A photograph cut off before its row is not half there: sent again, it is there whole."""
    words = [sys.executable, str(WRITER), str(tmp_path), "0", "9", "between"]
    done = subprocess.run(words, stdout=subprocess.PIPE, text=True, check=False, env=ENVIRONMENT)
    assert done.returncode == -signal.SIGKILL
    said = done.stdout.splitlines(keepends=True)[1:]
    store = open_store(tmp_path)
    try:
        assert len(said) == 2
        assert missing(store, said) == []
        (orphan,) = store.folder.photographs.iterdir()
        assert pictures(store, 1) == []
        again = add_photograph(store, 1, orphan.read_bytes())
        assert again.sha256 == orphan.stem
        assert photograph(store, again.sha256) == orphan.read_bytes()
    finally:
        store.close()


def test_what_a_kill_leaves_unfinished_is_swept_away(tmp_path: Path) -> None:
    """Half a file from a program that was killed goes away; one that is being written stays."""
    open_store(tmp_path).close()
    old, young = (tmp_path / "photographs" / f"{n}{files.UNFINISHED}" for n in ("old", "young"))
    for path in (old, young):
        path.touch()
    os.utime(old, (0, 0))
    open_store(tmp_path).close()
    assert (old.exists(), young.exists()) == (False, True)


def test_every_write_waits_for_the_disk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The database syncs at every commit; a photograph's file and folder are synced before that."""
    waited: list[int] = []
    monkeypatch.setattr(files, "to_disk", waited.append)
    store = open_store(tmp_path)
    try:
        assert store.database.number("synchronous") == 2  # FULL, by the manual of SQLite's pragmas
        files.write_whole(tmp_path / "file", b"x")
    finally:
        store.close()
    assert len(waited) == 2
    with sqlite3.connect(tmp_path / "dryfit.sqlite") as connection:
        assert connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)
    connection.close()


def test_history_goes_on_after_a_kill(tmp_path: Path) -> None:
    """The chain of texts has no gap after a kill: each one follows from the one before."""
    killed(tmp_path, 0, 200, 0.2)
    store = open_store(tmp_path)
    try:
        past = history(store, 1)
        assert [each.parent for each in past] == [each.number for each in past[1:]] + [None]
    finally:
        store.close()
