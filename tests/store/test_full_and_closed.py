"""No room, or no right to write: a message, the caller keeps its text, and nothing is half done."""

import os
from pathlib import Path

import pytest
from tests.store import spaces
from tests.store.samples import PATH

from dryfit.document.edit import Edit
from dryfit.store import copies
from dryfit.store.edits import Written, write
from dryfit.store.folder import data_folder
from dryfit.store.journal import Step, journal, note
from dryfit.store.opening import Store, open_store
from dryfit.store.revisions import begin, newest
from dryfit.store.trouble import Trouble


def limit(store: Store, pages: int) -> None:
    """Let the database have so many pages more than it has."""
    most = store.database.number("page_count") + pages
    store.database.number(f"max_page_count = {most}")


def test_a_full_database_keeps_what_it_has(store: Store, text: bytes) -> None:
    """With no room left the last size that was kept is the newest; the next is refused whole."""
    here = begin(store, text)
    limit(store, 20)
    with pytest.raises(Trouble) as caught:  # noqa: PT012 - the one that fails is not known before
        for number in range(1000):
            edit = Edit("set", ("sizes", "sleeve"), typed=f"22.{number:03}")
            outcome = write(store, here.rebuild, edit, saw=here.number)
            assert isinstance(outcome, Written)
            here = outcome.revision
    assert caught.value.finding.code == "store.full"
    assert "no room" in caught.value.finding.message
    assert "free some space" in caught.value.finding.way_out
    assert newest(store, 1) == here
    limit(store, 100)
    assert isinstance(write(store, 1, edit, saw=here.number), Written)


def test_a_full_database_takes_no_half_entry(store: Store, text: bytes) -> None:
    """The journal has each entry whole or not at all."""
    begin(store, text)
    limit(store, 3)
    kept = 0
    with pytest.raises(Trouble, match="no room"):  # noqa: PT012
        for _ in range(100):
            note(store, 1, Step("nut up", "x" * 1500))
            kept += 1
    assert 0 < kept == len(journal(store, 1))


ON_A_SMALL_DISK = """
import json, os, sys
sys.path[:0] = {path}
from pathlib import Path
from dryfit.document.edit import Edit
from dryfit.store import copies, photographs, revisions
from dryfit.store.edits import write
from dryfit.store.opening import open_store
from dryfit.store.trouble import Trouble
from tests.store.samples import telephone_jpeg
from tests.store.writer import picture

def code(act):
    try:
        act()
    except Trouble as trouble:
        return trouble.finding.code

folder, told = Path(sys.argv[1]), {{}}
store = open_store(folder)
here = revisions.begin(store, b"dryfit: 1\\nsizes:\\n  a: 1\\n").number
filler = (folder / "filler").open("wb", buffering=0)
try:
    while True:
        filler.write(b"x" * 4096)
except OSError:
    pass
told["photograph"] = code(lambda: photographs.add_photograph(store, 1, picture(1)))
told["copy"] = code(lambda: copies.keep(store.folder, store.database, "start"))
last = here
try:
    for n in range(2000):
        edit = Edit("set", ("sizes", "a"), typed=f"{{n}}.50")
        last = write(store, 1, edit, saw=last).revision.number
except Trouble as trouble:
    told["edit"] = trouble.finding.code
told["same"] = revisions.newest(store, 1).number == last
told["left over"] = sorted(p.name for p in folder.rglob("*.unfinished"))
store.close()
again = open_store(folder)
told["start"] = [note.code for note in again.notes]
told["after start"] = revisions.newest(again, 1).number == last
filler.truncate(0)
told["after"] = type(write(again, 1, edit, saw=last)).__name__
told["photograph after"] = code(lambda: photographs.add_photograph(again, 1, picture(1)))
again.close()
print(json.dumps(told))
"""


def test_a_full_disk(tmp_path: Path) -> None:
    """On a disk that is really full each write says so, nothing is lost, and room mends it."""
    told = spaces.run(spaces.FULL, tmp_path / "disk", ON_A_SMALL_DISK.format(path=PATH))
    assert told == {
        "photograph": "store.full",
        "copy": "store.full",
        "edit": "store.full",
        "same": True,
        "left over": [],
        "start": ["store.full"],
        "after start": True,
        "after": "Written",
        "photograph after": None,
    }


MADE = """
import sys
sys.path[:0] = {path}
from dryfit.store import revisions
from dryfit.store.opening import open_store
store = open_store(sys.argv[1])
revisions.begin(store, b"dryfit: 1\\n")
store.close()
"""

CLOSED = """
import json, sys
sys.path[:0] = {path}
from pathlib import Path
from dryfit.store.folder import Folder
from dryfit.store.opening import open_store
from dryfit.store.running import start
from dryfit.store.trouble import Trouble

def code(act):
    try:
        act()
    except Trouble as trouble:
        return trouble.finding.code

folder = Path(sys.argv[1])
before = (folder / "dryfit.sqlite").read_bytes()
told = {{"open": code(lambda: open_store(folder))}}
told["new"] = code(lambda: open_store(folder / "new"))
told["lock"] = code(lambda: start(Folder(folder)))
told["same"] = (folder / "dryfit.sqlite").read_bytes() == before
print(json.dumps(told))
"""


def test_a_closed_disk(tmp_path: Path) -> None:
    """Where nothing may be written, opening says so and leaves all as it is."""
    scripts = (MADE.format(path=PATH), CLOSED.format(path=PATH))
    told = spaces.run(spaces.CLOSED, tmp_path / "disk", *scripts)
    assert told == {
        "open": "store.closed",
        "new": "store.closed",
        "lock": "store.closed",
        "same": True,
    }


def test_a_folder_one_may_not_write_to(tmp_path: Path) -> None:
    """A folder of somebody else's is told as such, with another one as the way out."""
    tmp_path.chmod(0o500)
    if os.access(tmp_path, os.W_OK):
        pytest.skip("whoever runs this may write everywhere; a closed disk shows the same")
    with pytest.raises(Trouble) as caught:
        open_store(tmp_path / "data")
    assert caught.value.finding.code == "store.closed"
    assert "DRYFIT_HOME" in caught.value.finding.way_out


def test_no_room_for_a_copy_does_not_keep_from_work(
    store: Store, text: bytes, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A start without room for its copy says so in a note, and the rebuild can be worked on."""
    begin(store, text)

    def no_room(*_: object) -> None:
        raise Trouble("store.full", "there is no room left", "free some space")

    monkeypatch.setattr(copies, "keep", no_room)
    again = open_store(store.folder.path)
    try:
        (told,) = again.notes
        assert (told.code, told.level) == ("store.full", "note")
        assert newest(again, 1).text.encode() == text
    finally:
        again.close()


def test_the_folder_is_the_one_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An argument goes before DRYFIT_HOME, and that before the user's own folder."""
    monkeypatch.setattr(Path, "home", lambda: tmp_path / "home")
    here = {"DRYFIT_HOME": str(tmp_path / "told")}
    assert data_folder(tmp_path / "argument", here).path == tmp_path / "argument"
    assert data_folder(None, here).path == tmp_path / "told"
    assert data_folder(None, {"DRYFIT_HOME": ""}).path == tmp_path / "home" / "dryfit"
    assert (tmp_path / "home" / "dryfit" / "copies").is_dir()
    monkeypatch.chdir(tmp_path)
    assert data_folder("beside", {}).path == tmp_path / "beside"


def test_a_file_in_the_place_of_the_folder_is_told(tmp_path: Path) -> None:
    """A file called `dryfit` in the user's folder is not written over."""
    (tmp_path / "dryfit").write_text("mine", encoding="utf-8")
    with pytest.raises(Trouble, match="is a file, not a folder"):
        data_folder(tmp_path / "dryfit")
    assert (tmp_path / "dryfit").read_text(encoding="utf-8") == "mine"


def test_a_folder_inside_a_file_is_told(tmp_path: Path) -> None:
    """A folder that cannot be made gives a message with the system's reason."""
    (tmp_path / "file").touch()
    with pytest.raises(Trouble) as caught:
        data_folder(tmp_path / "file" / "data")
    assert caught.value.finding.code == "store.disk"


def test_a_system_that_knows_no_home_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without a folder of one's own the way out is the variable."""

    def unknown() -> Path:
        raise RuntimeError("Could not determine home directory.")

    monkeypatch.setattr(Path, "home", unknown)
    with pytest.raises(Trouble, match="does not say where your own folder is") as caught:
        data_folder(None, {})
    assert "DRYFIT_HOME" in caught.value.finding.way_out
