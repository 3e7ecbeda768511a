"""Two that write at once: two programs on one folder, and the threads of one."""

import subprocess
import sys
import threading
from pathlib import Path

import pytest
from tests.store.samples import ENVIRONMENT

from dryfit.document.edit import Edit
from dryfit.store.edits import Conflict, Outcome, Written, write
from dryfit.store.opening import Store, open_store, opened
from dryfit.store.revisions import begin, history, newest, rebuilds
from dryfit.store.trouble import Trouble

MANY = """\
import sys
from dryfit.document.edit import Edit
from dryfit.store.edits import Written, write
from dryfit.store.opening import open_store
store = open_store(sys.argv[1])
saw = 1
for n in range(40):
    edit = Edit("add", ("sizes", f"{sys.argv[2]} {n}"), typed=f"{n}.5")
    outcome = write(store, 1, edit, saw=saw)
    assert isinstance(outcome, Written), outcome
    saw = outcome.revision.number
store.close()
"""


def test_two_programs_at_once(tmp_path: Path) -> None:
    """Eighty sizes typed in two programs at the same time are all there, in one chain of texts."""
    with opened(tmp_path) as store:
        begin(store, b"dryfit: 1\nsizes:\n  first: 1\n")
    words = [sys.executable, "-c", MANY, str(tmp_path)]
    both = [subprocess.Popen([*words, name], env=ENVIRONMENT) for name in ("left", "right")]
    assert [process.wait() for process in both] == [0, 0]
    with opened(tmp_path) as store:
        text, past = newest(store, 1).text, history(store, 1)
        missing = [
            f"{name} {n}" for name in ("left", "right") for n in range(40)
            if f"  {name} {n}: {n}.5\n" not in text
        ]  # fmt: skip
        assert missing == []
        assert [each.parent for each in past] == [each.number for each in past[1:]] + [None]


def test_threads_that_type_the_same_size(store: Store) -> None:
    """Of eight who type another figure into one box at once, one is kept and seven are told."""
    first = begin(store, b"dryfit: 1\nsizes:\n  a: 1\n")
    outcomes: list[Outcome] = []

    def typed(number: int) -> None:
        edit = Edit("set", ("sizes", "a"), typed=f"{number}.5")
        outcomes.append(write(store, 1, edit, saw=first.number))

    threads = [threading.Thread(target=typed, args=(number,)) for number in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    (kept,) = [outcome for outcome in outcomes if isinstance(outcome, Written)]
    told = [outcome for outcome in outcomes if isinstance(outcome, Conflict)]
    assert len(told) == 7
    assert newest(store, 1).text == kept.revision.text
    assert {f"  a: {each.now}\n" in kept.revision.text for each in told} == {True}


def test_a_program_that_writes_for_too_long_is_told(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where another program holds the database, a message says so instead of waiting for ever."""
    begin(store, b"dryfit: 1\nsizes:\n  a: 1\n")
    monkeypatch.setattr("dryfit.store.database.WAIT", 0.05)
    other = open_store(store.folder.path)
    edit = Edit("set", ("sizes", "a"), typed="2")
    try:
        with store.database.writing(), pytest.raises(Trouble) as caught:
            write(other, 1, edit, saw=1)
        assert caught.value.finding.code == "store.busy"
        assert isinstance(write(other, 1, edit, saw=1), Written)
    finally:
        other.close()


def test_what_is_looked_at_together_belongs_together(store: Store) -> None:
    """A parcel packed while another program writes has text and journal of one moment."""
    begin(store, b"dryfit: 1\nsizes:\n  a: 1\n")
    other = open_store(store.folder.path)
    try:
        with store.database.steady():
            before = newest(store, 1)
            write(other, 1, Edit("set", ("sizes", "a"), typed="2"), saw=1)
            assert newest(store, 1) == before
        assert newest(store, 1).text.endswith("a: 2\n")
    finally:
        other.close()


STARTS = """\
import sys, time
from dryfit.store.opening import open_store
from dryfit.store.revisions import begin
print("ready", flush=True)
sys.stdin.readline()
store = open_store(sys.argv[1])
begin(store, b"dryfit: 1\\n")
store.close()
"""


def test_five_first_starts_at_the_same_moment(tmp_path: Path) -> None:
    """Clicked five times before there was a folder: one database, with what each of them wrote."""
    words = [sys.executable, "-c", STARTS, str(tmp_path / "data")]
    pipe = subprocess.PIPE
    programs = [subprocess.Popen(words, env=ENVIRONMENT, stdin=pipe, stdout=pipe) for _ in range(5)]
    for program in programs:
        assert program.stdout
        program.stdout.readline()
    for program in programs:
        assert program.stdin
        program.stdin.write(b"go\n")
        program.stdin.flush()
    for program in programs:
        program.communicate()
    assert [program.returncode for program in programs] == [0] * 5
    with opened(tmp_path / "data") as store:
        assert sorted(rebuilds(store)) == [1, 2, 3, 4, 5]
