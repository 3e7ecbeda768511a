"""dryfit killed while the browser posts: what it was told is kept is there at the next start."""

import http.client
import os
import random
import signal
import threading
from pathlib import Path

import pytest
from tests.pages.visiting import Opened, open_dryfit
from tests.store.writer import picture

from dryfit.app.usecases import demos
from dryfit.store.journal import Reading, journal
from dryfit.store.opening import opened
from dryfit.store.photographs import photograph, pictures
from dryfit.store.revisions import begin, history

CHECK = "end float"
"""A check of the demo."""

pytestmark = pytest.mark.skipif(os.name == "nt", reason="Windows has no SIGKILL")


BOUNDARY = "a-boundary-that-no-picture-holds"


def post(running: Opened, number: int) -> int:
    """Post a change, a reading or a photograph; give the status."""
    if number % 3 == 0:
        return running.ask("/unit/1/edit", act="set", place='["title"]', typed=f"Change {number}")[
            0
        ]
    if number % 3 == 1:
        typed, at = f"0.{number:04}", "4"
        return running.ask("/unit/1/build-reading", check=CHECK, typed=typed, at=at)[0]
    head = f"--{BOUNDARY}\r\nContent-Disposition: form-data; name="
    body = (
        f'{head}"caption"\r\n\r\nn{number}\r\n{head}"photograph"; filename="a.png"\r\n'
        "Content-Type: image/png\r\n\r\n"
    ).encode()
    body += picture(number) + f"\r\n--{BOUNDARY}--\r\n".encode()
    kind = f"multipart/form-data; boundary={BOUNDARY}"
    return running.send("/unit/1/photograph", body, kind)[0]


def until_killed(running: Opened, first: int, told: list[int], moment: float) -> int:
    """Post one after the other until dryfit is killed; give the number to go on with."""
    clock = threading.Timer(moment, running.process.send_signal, (signal.SIGKILL,))
    clock.start()
    number = first
    try:
        while True:
            number += 1
            if post(running, number) == 303:
                told.append(number)
    except (http.client.HTTPException, OSError):
        clock.join()
    running.process.communicate()
    return number


def lost(home: Path, told: list[int]) -> list[int]:
    """List what was told is kept and is not there."""
    with opened(home) as store:
        edits = {past.edit.typed for past in history(store, 1) if past.edit}
        read = {e.wrote.typed for e in journal(store, 1) if isinstance(e.wrote, Reading)}
        shown = {one.caption: one.sha256 for one in pictures(store, 1)}
        whole = {name for name, key in shown.items() if photograph(store, key)}
    there = (
        lambda number: f"Change {number}" in edits,
        lambda number: f"0.{number:04}" in read,
        lambda number: f"n{number}" in whole,
    )
    return [number for number in told if not there[number % 3](number)]


def kill_often(home: Path, writes: int, seed: int) -> None:
    """Kill at random moments until so much was told."""
    with opened(home) as store:
        begin(store, demos.text("lay-shaft"))
    moments, told, number = random.Random(seed), list[int](), 0
    while len(told) < writes:
        number = until_killed(open_dryfit(home), number, told, moments.uniform(0.05, 1.5))
        assert lost(home, told) == []
    assert {number % 3 for number in told} == {0, 1, 2}


def test_what_was_told_is_kept(tmp_path: Path) -> None:
    """Killed a few times in the middle of typing, nothing that the page showed as kept is gone."""
    kill_often(tmp_path / "home", 30, 26)


@pytest.mark.prove
def test_of_500_writes_none_is_lost(tmp_path: Path) -> None:
    """The same for 500 changes, readings and photographs."""
    kill_often(tmp_path / "home", 500, 8)
