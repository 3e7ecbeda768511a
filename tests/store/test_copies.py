"""Copies: when they are made, how many are kept, bringing one back, and changing the form."""

import os
import shutil
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest
from tests.store.samples import ENVIRONMENT

from dryfit.document.edit import Edit
from dryfit.store import copies, forms
from dryfit.store.edits import Written, write
from dryfit.store.journal import Reading, journal, note
from dryfit.store.opening import Store, open_store, opened
from dryfit.store.photographs import add_photograph, photograph, pictures
from dryfit.store.revisions import begin, newest, rebuilds
from dryfit.store.trouble import Trouble


def worked_on(folder: Path, typed: str) -> None:
    """Open a store, type one more size and close it."""
    with opened(folder) as store:
        number = (rebuilds(store) or [begin(store, b"dryfit: 1\nsizes:\n  a: 1\n").rebuild])[0]
        edit = Edit("set", ("sizes", "a"), typed=typed)
        outcome = write(store, number, edit, saw=newest(store, number).number)
        assert isinstance(outcome, Written)


def size_in(path: Path) -> str:
    """Read the size in a copy without the store: it is a database like any other."""
    connection = sqlite3.connect(path)
    try:
        row = connection.execute(
            "SELECT text FROM revision JOIN newest ON id = revision"
        ).fetchone()
    finally:
        connection.close()
    return str(row[0], "utf-8").split("a: ")[1].strip()


def test_a_copy_at_each_start_and_ten_are_kept(tmp_path: Path) -> None:
    """After twelve evenings there are ten copies, each as the store was when that evening began."""
    for evening in range(13):
        worked_on(tmp_path, f"{evening}.5")
    with opened(tmp_path) as store:
        kept = store.copies()
    assert [size_in(copy.path) for copy in kept] == [f"{n}.5" for n in range(12, 2, -1)]
    assert {copy.why for copy in kept} == {"start"}


def test_starts_with_nothing_new_push_no_copy_out(tmp_path: Path) -> None:
    """Looking at a rebuild twenty times does not use up the copies."""
    worked_on(tmp_path, "2")
    worked_on(tmp_path, "3")
    for _ in range(20):
        open_store(tmp_path).close()
    with opened(tmp_path) as store:
        assert [size_in(copy.path) for copy in store.copies()] == ["3", "2"]


def test_a_copy_is_brought_back(store: Store, text: bytes, jpeg: bytes) -> None:
    """One call gives back the state of a copy; what was there is a copy itself, and comes back."""
    begin(store, text)
    note(store, 1, Reading("end float", "0.11"))
    before = copies.keep(store.folder, store.database, "start")
    shown = add_photograph(store, 1, jpeg)
    note(store, 1, Reading("end float", "0.12"))
    present = store.bring_back(before.name)
    assert [entry.wrote for entry in journal(store, 1)] == [Reading("end float", "0.11")]
    assert pictures(store, 1) == []
    store.bring_back(present.name)
    assert len(journal(store, 1)) == 2
    assert pictures(store, 1) == [shown]
    assert len(photograph(store, shown.sha256)) > 0
    assert store.database.number("synchronous") == 2
    with store.database.reading() as connection:
        assert connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)


def test_the_oldest_copy_can_be_brought_back(tmp_path: Path) -> None:
    """The tenth copy is not given up for the one made while it is brought back."""
    for evening in range(12):
        worked_on(tmp_path, f"{evening}.5")
    with opened(tmp_path) as store:
        oldest = store.copies()[-1]
        assert len(store.copies()) == 10
        note(store, 1, Reading("end float", "0.11"))
        store.bring_back(oldest.name)
        assert newest(store, 1).text.endswith(f"a: {size_in(oldest.path)}\n")
        assert oldest in store.copies()
        assert store.copies()[0].why == "bring-back"


def test_a_copy_that_is_not_there_is_told(store: Store, text: bytes) -> None:
    """A name that is no copy, a path above all, opens nothing and lists what there is."""
    begin(store, text)
    copies.keep(store.folder, store.database, "start")
    for name in ("", "../dryfit.sqlite", "/etc/passwd", "0009-20260101T000000Z-start.sqlite"):
        with pytest.raises(Trouble, match="there is no copy") as caught:
            store.bring_back(name)
        assert "0001-" in caught.value.finding.way_out


def test_a_damaged_copy_is_not_brought_back(store: Store, text: bytes) -> None:
    """A copy with holes in it is refused and what is there stays."""
    begin(store, text)
    made = copies.keep(store.folder, store.database, "start")
    note(store, 1, Reading("end float", "0.11"))
    data = bytearray(made.path.read_bytes())
    data[4096 : 4096 + 2000] = bytes(range(250)) * 8
    made.path.write_bytes(data)
    with pytest.raises(Trouble) as caught:
        store.bring_back(made.name)
    assert caught.value.finding.code == "store.damaged"
    assert str(made.path) in caught.value.finding.message
    assert len(journal(store, 1)) == 1


KILLED = """
import os, signal, sys, threading
from dryfit.store.opening import open_store
store = open_store(sys.argv[1])
threading.Timer(float(sys.argv[3]), os.kill, (os.getpid(), signal.SIGKILL)).start()
while True:
    for name in sys.argv[2].split(","):
        store.bring_back(name)
"""


@pytest.mark.prove
@pytest.mark.skipif(os.name == "nt", reason="Windows has no SIGKILL")
def test_killed_while_a_copy_is_brought_back(tmp_path: Path) -> None:
    """A program killed while it brings back a copy leaves one state or the other, unmixed."""
    names = []
    for size in ("2", "3"):
        with opened(tmp_path) as store:
            first = rebuilds(store)
            number = first[0] if first else begin(store, b"dryfit: 1\nsizes:\n  a: 1\n").rebuild
            saw = newest(store, number).number
            write(store, number, Edit("set", ("sizes", "a"), typed=size), saw=saw)
            for n in range(300):
                note(store, number, Reading(f"check {n}", size * 200))
            names.append(copies.keep(store.folder, store.database, "start").name)
    for moment in range(1, 13):
        words = [sys.executable, "-c", KILLED, str(tmp_path), ",".join(names), str(moment / 20)]
        subprocess.run(words, check=False, capture_output=True, env=ENVIRONMENT)
        with opened(tmp_path) as store:
            sizes = {
                entry.wrote.typed[0]
                for entry in journal(store, 1)[-300:]
                if isinstance(entry.wrote, Reading)
            }
            assert len(sizes) == 1
            assert newest(store, 1).text.endswith(f"a: {sizes.pop()}\n")


# --- another form of the database


@pytest.fixture
def sql(tmp_path: Path) -> Path:
    """Give a folder with the numbered SQL of a dryfit to come."""
    folder = tmp_path / "sql"
    shutil.copytree(forms.SQL, folder)
    (folder / "0002_next.sql").write_text(
        "CREATE TABLE more (a);\nCREATE TRIGGER t BEFORE DELETE ON more\n"
        "BEGIN SELECT RAISE (ABORT, 'no; never'); END;\nINSERT INTO more VALUES ('x;y');\n",
        encoding="utf-8",
    )
    return folder


def test_a_new_form_is_made_after_a_copy(tmp_path: Path, sql: Path) -> None:
    """A newer dryfit brings the database to its form; the one before is among the copies."""
    worked_on(tmp_path / "data", "2")
    store = open_store(tmp_path / "data", sql=sql)
    try:
        assert store.database.number("user_version") == 2
        assert newest(store, 1).text.endswith("a: 2\n")
        (before,) = store.copies()
        assert before.why == "new-form"
        assert before.path.read_bytes()[60:64] == bytes((0, 0, 0, 1))
        with store.database.reading() as connection:
            assert connection.execute("SELECT a FROM more").fetchall() == [("x;y",)]
        store.bring_back(before.name, sql=sql)
        assert store.database.number("user_version") == 2
    finally:
        store.close()


def test_a_form_that_fails_changes_nothing(tmp_path: Path, sql: Path) -> None:
    """A change of form that breaks off leaves the form before, and that still opens."""
    worked_on(tmp_path / "data", "2")
    (sql / "0002_next.sql").write_text(
        "CREATE TABLE more (a);\nINSERT INTO nowhere VALUES (1);\n", encoding="utf-8"
    )
    with pytest.raises(sqlite3.OperationalError, match="nowhere"):
        open_store(tmp_path / "data", sql=sql)
    with opened(tmp_path / "data") as store:
        assert store.database.number("user_version") == 1
        assert newest(store, 1).text.endswith("a: 2\n")
        with store.database.reading() as connection:
            names = connection.execute("SELECT name FROM sqlite_master").fetchall()
        assert ("more",) not in names


def test_without_a_copy_there_is_no_new_form(
    tmp_path: Path, sql: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where there is no room for the copy, the form stays as it is."""
    worked_on(tmp_path / "data", "2")

    def no_room(*_: object) -> None:
        raise Trouble("store.full", "there is no room left", "free some space")

    with monkeypatch.context() as patch:
        patch.setattr(copies, "keep", no_room)
        with pytest.raises(Trouble, match="no room"):
            open_store(tmp_path / "data", sql=sql)
    assert (tmp_path / "data" / "dryfit.sqlite").read_bytes()[60:64] == bytes((0, 0, 0, 1))


def test_a_newer_database_is_refused_unopened(tmp_path: Path, sql: Path) -> None:
    """A database of a newer dryfit is named as such; not a byte nor a file beside it changes."""
    worked_on(tmp_path / "data", "2")
    open_store(tmp_path / "data", sql=sql).close()
    path = tmp_path / "data" / "dryfit.sqlite"
    before = {p: p.read_bytes() for p in path.parent.rglob("*") if p.is_file()}
    with pytest.raises(Trouble) as caught:
        open_store(tmp_path / "data")
    told = caught.value.finding
    assert told.code == "store.newer"
    assert "its form is 2, this one knows up to 1" in told.message
    assert "newer dryfit" in told.way_out
    assert {p: p.read_bytes() for p in path.parent.rglob("*") if p.is_file()} == before


def test_a_newer_form_that_only_the_log_tells_is_refused(tmp_path: Path) -> None:
    """A newer dryfit that was cut off before its head was written is still found to be newer."""
    cut_off = tmp_path / "cut off"
    with opened(tmp_path / "data") as store:
        with store.database.writing() as connection:
            connection.execute("PRAGMA user_version = 9")
            connection.execute("CREATE TABLE more (a)")
        shutil.copytree(tmp_path / "data", cut_off)
    assert (cut_off / "dryfit.sqlite").read_bytes()[60:64] == bytes((0, 0, 0, 1))
    with pytest.raises(Trouble, match="its form is 9"):
        open_store(cut_off)


def test_a_database_of_another_program_is_left_alone(tmp_path: Path) -> None:
    """A file that another program calls `dryfit.sqlite` too is not written to."""
    path = tmp_path / "dryfit.sqlite"
    for statement in ("CREATE TABLE mine (a)", "PRAGMA application_id = 77"):
        connection = sqlite3.connect(path)
        connection.execute(statement)
        connection.commit()
        connection.close()
        with pytest.raises(Trouble, match="belongs to another program"):
            open_store(tmp_path)
        connection = sqlite3.connect(path)
        names = connection.execute("SELECT name FROM sqlite_master").fetchall()
        connection.close()
        assert names == [("mine",)]
