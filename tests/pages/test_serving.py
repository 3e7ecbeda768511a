"""`dryfit open` as it is started, started again, killed, and started on what is shut or damaged."""

import http.client
import os
import re
import shutil
import signal
import sqlite3
import stat
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page
from tests.pages.visiting import Opened, open_dryfit

from dryfit.store.opening import open_store, opened
from dryfit.store.revisions import newest


def once(home: Path) -> str:
    """Open and close; give the address."""
    running = open_dryfit(home)
    running.close()
    return running.address


def test_a_second_start_shows_the_first(opened: Opened) -> None:
    """Whoever clicks twice gets the pages that are open, not a second program on the same data."""
    command = [sys.executable, "-m", "dryfit", "open", "--in", str(opened.home), "--no-browser"]
    done = subprocess.run(command, capture_output=True, text=True, timeout=60, check=True)
    assert done.stdout.strip() == f"dryfit is open already, at {opened.address}"


def test_port_and_key_stay(tmp_path: Path) -> None:
    """A tab left open over night, or a bookmark, works after the next start."""
    assert once(tmp_path / "home") == once(tmp_path / "home")


def test_another_at_the_port_is_made_way_for(tmp_path: Path) -> None:
    """If another program has the port of last time, dryfit takes a free one and says so."""
    import socket

    address = once(tmp_path / "home")
    port = int(address.partition("/?")[0].rpartition(":")[2])
    with socket.socket() as other:
        other.bind(("127.0.0.1", port))
        other.listen()
        assert once(tmp_path / "home") != address


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such rights")
def test_only_its_owner_reads_the_key(opened: Opened) -> None:
    """Other users of the machine cannot read the key from the disk."""
    assert stat.S_IMODE((opened.home / "key").stat().st_mode) == 0o600


def test_only_this_machine_is_listened_to(opened: Opened) -> None:
    """Nobody in the workshop's network sees the pages; sharing is not here yet."""
    assert opened.address.startswith("http://127.0.0.1:")
    names = subprocess.run(
        [sys.executable, "-c", "import socket; print(socket.gethostbyname(socket.gethostname()))"],
        capture_output=True,
        text=True,
        check=True,
    ).stdout.strip()
    if names.startswith("127."):
        pytest.skip("this machine has no other address")
    port = int(opened.base.rpartition(":")[2])
    with pytest.raises(OSError):  # noqa: PT011 - refused, or no way there
        http.client.HTTPConnection(names, port, timeout=5).request("GET", "/")


@pytest.mark.skipif(os.name == "nt", reason="Windows has no SIGKILL")
def test_killed_in_the_middle_nothing_is_lost(tmp_path: Path, browser: Browser) -> None:
    """The laptop dies with the page open: opened again, the same tab goes on where it was."""
    running = open_dryfit(tmp_path / "home")
    context = browser.new_context()
    tab: Page = context.new_page()
    tab.goto(running.address)
    tab.get_by_role("button", name="lay shaft", exact=True).click()
    tab.wait_for_url("**/unit/1/measure")
    status, _ = running.ask("/unit/1/edit", act="set", place='["title"]', typed="Mended")
    assert status == 303
    running.process.send_signal(signal.SIGKILL)
    running.process.communicate()
    running = open_dryfit(tmp_path / "home")
    try:
        tab.reload()
        assert tab.title() == "Mended"
    finally:
        context.close()
        running.close()


def damage(home: Path) -> None:
    """Write noughts over the middle of the database."""
    path = home / "dryfit.sqlite"
    data = bytearray(path.read_bytes())
    data[4096 : 4096 * 4] = bytes(4096 * 3)
    path.write_bytes(data)


def with_a_copy(home: Path) -> bytes:
    """Make a store with one unit and a copy of it, closed; give its database."""
    with opened_store(home) as store:
        from dryfit.store import copies, revisions

        revisions.begin(store, b"dryfit: 1\nsizes in: mm\ntitle: Old and sound\n")
        copies.keep(store.folder, store.database, "start")
    return (home / "dryfit.sqlite").read_bytes()


opened_store = opened


def test_a_damaged_database_is_told_and_a_copy_brought_back(tmp_path: Path) -> None:
    """A disk that went bad: the page says what and where, one press brings back the copy."""
    home = tmp_path / "home"
    with_a_copy(home)
    damage(home)
    broken = (home / "dryfit.sqlite").read_bytes()
    running = open_dryfit(home)
    try:
        status, told = running.ask("/")
        assert status == 503
        assert "is damaged" in told
        assert "Nothing was touched" in told
        assert (home / "dryfit.sqlite").read_bytes() == broken
        (name,) = set(re.findall(r'name="copy" value="([^"]+)"', told))
        (next_,) = re.findall(r'<button class="button first"([^>]*)>', told)
        assert name in next_  # what the way out says is the thing to do next
        status, _ = running.ask("/bring-back", copy="../key")
        assert status == 303
        assert "there is no copy" in running.ask("/")[1].lower()
        status, _ = running.ask("/again", anything="x")
        assert running.ask("/")[0] == 503
        assert running.ask("/bring-back", copy=name)[0] == 303
        status, told = running.ask("/")
        assert status == 200
        assert "Old and sound" in told
    finally:
        running.close()
    (aside,) = (home / "set aside").iterdir()
    assert (aside / "dryfit.sqlite").read_bytes() == broken


def test_a_newer_database_is_not_opened(tmp_path: Path) -> None:
    """An older dryfit says to use the newer one, and changes not a byte."""
    home = tmp_path / "home"
    with_a_copy(home)
    with sqlite3.connect(home / "dryfit.sqlite") as database:
        database.execute("PRAGMA user_version = 99")
    database.close()
    before = (home / "dryfit.sqlite").read_bytes()
    running = open_dryfit(home)
    try:
        status, told = running.ask("/")
        assert status == 503
        assert "newer dryfit" in told
        assert "Bring back" not in told
    finally:
        running.close()
    assert (home / "dryfit.sqlite").read_bytes() == before


def test_a_file_in_the_way_is_named(tmp_path: Path) -> None:
    """A folder that is a file ends in one sentence, not in a traceback."""
    (tmp_path / "home").write_text("mine")
    command = [sys.executable, "-m", "dryfit", "open", "--in", str(tmp_path / "home")]
    done = subprocess.run(command, capture_output=True, text=True, timeout=60, check=False)
    assert done.returncode != 0
    assert "is a file, not a folder" in done.stderr
    assert "Traceback" not in done.stderr


def test_what_a_store_keeps_is_there_for_the_pages(tmp_path: Path) -> None:
    """A copy of the whole folder, carried to another machine, opens there."""
    home, other = tmp_path / "home", tmp_path / "other"
    running = open_dryfit(home)
    running.ask("/begin", demo="lay-shaft")
    running.close()
    shutil.copytree(home, other)
    store = open_store(other)
    assert newest(store, 1).text
    store.close()


@pytest.mark.skipif(os.name == "nt", reason="Windows sends no Ctrl-C to one process alone")
def test_closed_while_something_is_worked_out_it_ends_at_once(tmp_path: Path) -> None:
    """Ctrl-C ends it quietly, and a page that still waits is told that dryfit is being closed."""
    command = [sys.executable, "-m", "dryfit", "open", "--no-browser", "--in", str(tmp_path / "h")]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    assert process.stdout is not None
    address = process.stdout.readline().split()[-1]
    running = Opened(address, tmp_path / "h", process)
    assert running.ask("/begin", demo="bevel-box")[0] == 303
    with ThreadPoolExecutor(1) as apart:
        waiting = apart.submit(running.ask, "/unit/1/build/steps")
        time.sleep(0.7)  # the order of this one takes seconds
        assert not waiting.done()
        began = time.monotonic()
        process.send_signal(signal.SIGINT)
        said, complained = process.communicate(timeout=30)
        took = time.monotonic() - began
        status, told = waiting.result()
    assert took < 1, (
        "a second is what whoever presses Ctrl-C waits before pressing again (no source)"
    )
    assert process.returncode == 0
    assert complained == ""
    assert said.splitlines()[-1] == "dryfit is closed; all is kept."
    assert status == 503
    assert "ryfit is being closed" in told
