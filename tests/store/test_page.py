"""What docs/store.md tells is so."""

import shutil
from dataclasses import fields
from pathlib import Path

from tests.store.samples import ROOT, TEXT

from dryfit.store import copies, unzip
from dryfit.store.database import WAIT
from dryfit.store.folder import VARIABLE, Folder
from dryfit.store.opening import Store, open_store, opened
from dryfit.store.picture import MOST_BYTES, MOST_PIXELS, SORTS
from dryfit.store.revisions import begin, newest

PAGE = (ROOT / "docs" / "store.md").read_text(encoding="utf-8")


def test_the_page_names_all_that_lies_in_the_folder(store: Store) -> None:
    """Nobody finds a file there that the page does not explain, nor looks for one in vain."""
    folder = store.folder
    named = [name for name in dir(Folder) if isinstance(getattr(Folder, name), property)]
    assert len(named) > 5
    told = {path.name for path in (getattr(folder, name) for name in named)}
    there = {path.name for path in folder.path.iterdir()}
    assert [name for name in told | there if f"`{name}`" not in PAGE] == []
    assert {field.name for field in fields(Folder)} == {"path"}
    assert VARIABLE in PAGE


def test_the_page_tells_the_limits() -> None:
    """The limits on the page are those of the program."""
    for told in (
        f"at most {MOST_BYTES // 10**6} MB and {MOST_PIXELS // 10**6} megapixels",
        f"{SORTS[0]}, {SORTS[1]} or {SORTS[2]}, at most",
        f"more than {unzip.MOST_PHOTOGRAPHS} photographs",
        f"more than {unzip.MOST_UNPACKED // 10**9} GB unpacked",
        f"dryfit waits {WAIT:.0f} seconds",
    ):
        assert told in PAGE
    assert copies.KEPT == 10
    assert "Ten are kept" in PAGE
    assert [name for name in unzip.LIMITS if f"`{name}`" not in PAGE] == []


def test_a_copy_is_brought_back_by_hand(tmp_path: Path) -> None:
    """The four steps of the page, done with files alone, give back what was there."""
    with opened(tmp_path) as store:
        begin(store, TEXT)
        copy = copies.keep(store.folder, store.database, "start")
        begin(store, b"dryfit: 1\n")
    wreck = tmp_path / "wreck"
    wreck.mkdir()
    for name in ("dryfit.sqlite", "dryfit.sqlite-wal", "dryfit.sqlite-shm"):
        if (tmp_path / name).exists():
            (tmp_path / name).rename(wreck / name)
    shutil.copy(copy.path, tmp_path / "dryfit.sqlite")
    again = open_store(tmp_path)
    try:
        assert newest(again, 1).text.encode() == TEXT
        assert copy in again.copies()
    finally:
        again.close()
