"""A database that a disk has damaged: told with its cause, left as it is, a copy brought back."""

import random
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from dryfit.document.edit import Edit
from dryfit.store import copies
from dryfit.store.edits import write
from dryfit.store.folder import Folder
from dryfit.store.journal import Entry, Reading, journal, note
from dryfit.store.opening import Store, open_store, opened
from dryfit.store.revisions import Past, begin, history, newest, revision
from dryfit.store.trouble import Trouble


@pytest.fixture(scope="module")
def sound(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Make a store with forty texts, forty readings and a copy, closed."""
    folder = tmp_path_factory.mktemp("sound")
    with opened(folder) as store:
        here = begin(store, b"dryfit: 1\nnotes: " + b"long " * 30 + b"\nsizes:\n  a: 1\n").number
        for number in range(40):
            edit = Edit("set", ("sizes", "a"), typed=f"{number}.50")
            write(store, 1, edit, saw=here)
            here = newest(store, 1).number
            note(store, 1, Reading("end float", f"0.{number:03}", "dial indicator"))
        copies.keep(store.folder, store.database, "start")
    return folder


def everything(store: Store) -> tuple[list[str], list[Past], list[Entry]]:
    """Read all texts, all changes and all entries."""
    past = history(store, 1)
    texts = [revision(store, 1, each.number).text for each in past]
    return [newest(store, 1).text, *texts], past, journal(store, 1)


def flipped(data: bytes, chance: random.Random) -> bytes:
    """Change one byte somewhere."""
    at = chance.randrange(len(data))
    return data[:at] + bytes([data[at] ^ chance.randrange(1, 256)]) + data[at + 1 :]


def overwritten(data: bytes, chance: random.Random) -> bytes:
    """Write random bytes over a sector."""
    at = chance.randrange(len(data) // 512) * 512
    return data[:at] + chance.randbytes(512) + data[at + 512 :]


def emptied(data: bytes, chance: random.Random) -> bytes:
    """Lose a page to noughts."""
    at = chance.randrange(len(data) // 4096) * 4096
    return data[:at] + bytes(4096) + data[at + 4096 :]


def cut_off(data: bytes, chance: random.Random) -> bytes:
    """Lose the end."""
    return data[: chance.randrange(len(data))]


def noise(data: bytes, chance: random.Random) -> bytes:
    """Have something else altogether."""
    return chance.randbytes(len(data))


WAYS = [flipped, overwritten, emptied, cut_off, noise]


@pytest.mark.parametrize("way", WAYS, ids=lambda way: way.__name__)
def test_damage_is_told_and_never_taken_for_what_was_typed(
    sound: Path, tmp_path: Path, way: Callable[[bytes, random.Random], bytes]
) -> None:
    """Whatever a disk does to the file: all is read as it was written, or the damage is told."""
    with opened(sound) as store:
        whole = everything(store)
    data, told, chance = (sound / "dryfit.sqlite").read_bytes(), [], random.Random(8)
    for number in range(60):
        folder = tmp_path / str(number)
        shutil.copytree(sound, folder)
        path = folder / "dryfit.sqlite"
        path.write_bytes(way(data, chance))
        broken, copied = path.read_bytes(), copies.kept(Folder(folder))
        try:
            with opened(folder) as store:
                assert everything(store) == whole
        except Trouble as trouble:
            told.append(trouble.finding)
            now = path.read_bytes()
            assert now == broken
        assert copied[-1] in copies.kept(Folder(folder))
    assert {one.code for one in told} <= {"store.damaged", "store.other", "store.newer"}
    assert all("dryfit.sqlite" in one.message and one.way_out for one in told)
    assert len(told) == 60 if way in (cut_off, noise) else len(told) > 0


def test_a_copy_is_brought_back_after_damage(sound: Path, tmp_path: Path) -> None:
    """Damage, a message, set aside by an act of one's own, a copy brought back: work goes on."""
    folder = tmp_path / "data"
    shutil.copytree(sound, folder)
    broken = (folder / "dryfit.sqlite").read_bytes()[:9000]
    (folder / "dryfit.sqlite").write_bytes(broken)
    for _ in range(3):  # however often it is started
        with pytest.raises(Trouble) as caught:
            open_store(folder)
        assert caught.value.finding.code == "store.damaged"
        assert "copy" in caught.value.finding.way_out
    place = copies.set_aside(Folder(folder))
    assert (place / "dryfit.sqlite").read_bytes() == broken
    with opened(folder) as store:
        store.bring_back(store.copies()[-1].name)
        with opened(sound) as other:
            assert everything(store) == everything(other)


def test_an_empty_file_beside_copies_is_damage(sound: Path, tmp_path: Path) -> None:
    """A database that a full disk left empty is not taken for a new one."""
    folder = tmp_path / "data"
    shutil.copytree(sound, folder)
    (folder / "dryfit.sqlite").write_bytes(b"")
    with pytest.raises(Trouble, match="it is empty, though there are copies"):
        open_store(folder)


def test_a_start_cut_off_at_once_is_no_damage(tmp_path: Path) -> None:
    """A first start that was killed before it wrote anything is simply done again."""
    (tmp_path / "dryfit.sqlite").touch()
    with opened(tmp_path) as store:
        begin(store, b"dryfit: 1\n")


def test_nothing_can_be_changed_or_taken_out(sound: Path) -> None:
    """Not even a mistake of the program can change an entry of the journal or an old text."""
    with opened(sound) as store:
        whole = everything(store)
        for statement in (
            "UPDATE journal SET typed = '9'",
            "DELETE FROM journal WHERE id = 3",
            "UPDATE revision SET text = x'00'",
            "DELETE FROM revision",
        ):
            with pytest.raises(Exception, match=r"never|nothing is taken"):  # noqa: SIM117
                with store.database.writing() as connection:
                    connection.execute(statement)
        assert everything(store) == whole
