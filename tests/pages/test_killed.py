"""dryfit killed while the browser posts: what it was told is kept is there at the next start."""

import http.client
import os
import random
import signal
import threading
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from tests.pages.visiting import Opened, open_dryfit

from dryfit.app.usecases import demos
from dryfit.store.opening import opened
from dryfit.store.revisions import begin, history

pytestmark = pytest.mark.skipif(os.name == "nt", reason="Windows has no SIGKILL")


@dataclass
class Told:
    """What the browser was told is kept."""

    edits: list[str] = field(default_factory=list)

    def __len__(self) -> int:
        """Count all."""
        return len(self.edits)


def until_killed(running: Opened, first: int, told: Told, moment: float) -> int:
    """Post one change after the other until dryfit is killed; give the number to go on with."""
    clock = threading.Timer(moment, running.process.send_signal, (signal.SIGKILL,))
    clock.start()
    number = first
    try:
        while True:
            number += 1
            typed = f"Change {number}"
            status, _ = running.ask("/unit/1/edit", act="set", place='["title"]', typed=typed)
            if status == 303:
                told.edits.append(typed)
    except (http.client.HTTPException, OSError):
        clock.join()
    running.process.communicate()
    return number


def lost(home: Path, told: Told) -> list[str]:
    """List what was told is kept and is not there."""
    with opened(home) as store:
        kept = {past.edit.typed for past in history(store, 1) if past.edit}
    return [typed for typed in told.edits if typed not in kept]


def kill_often(home: Path, writes: int, seed: int) -> None:
    """Kill at random moments until so many changes were told."""
    with opened(home) as store:
        begin(store, demos.text("lay-shaft"))
    moments, told, number = random.Random(seed), Told(), 0
    while len(told) < writes:
        number = until_killed(open_dryfit(home), number, told, moments.uniform(0.05, 1.5))
        assert lost(home, told) == []


def test_what_was_told_is_kept(tmp_path: Path) -> None:
    """Killed a few times in the middle of typing, nothing that the page showed as kept is gone."""
    kill_often(tmp_path / "home", 30, 26)


@pytest.mark.prove
def test_of_500_changes_none_is_lost(tmp_path: Path) -> None:
    """The same for 500 changes."""
    kill_often(tmp_path / "home", 500, 8)
