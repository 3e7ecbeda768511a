"""Which program has the pages open: the second start finds the first, and the port stays."""

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from tests.store.samples import ENVIRONMENT

from dryfit.store.folder import Folder, data_folder
from dryfit.store.running import Running, Started, start

HOLDS = """\
import sys
from pathlib import Path
from dryfit.store.folder import Folder
from dryfit.store.running import start
held = start(Folder(Path(sys.argv[1])))
held.answers_at(int(sys.argv[2]))
print(held.port, flush=True)
sys.stdin.read()
"""


@pytest.fixture
def folder(tmp_path: Path) -> Folder:
    """Give a data folder."""
    return data_folder(tmp_path / "data", {})


def holder(folder: Folder, port: int) -> "subprocess.Popen[str]":
    """Start another program that shows the pages."""
    words = [sys.executable, "-c", HOLDS, str(folder.path), str(port)]
    process = subprocess.Popen(
        words, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, env=ENVIRONMENT
    )
    assert process.stdout
    assert process.stdout.readline() == f"{port}\n"
    return process


def test_a_second_start_learns_where_the_first_is(folder: Folder) -> None:
    """Started twice, the second start is told process and port of the first."""
    with holder(folder, 8417) as process:
        assert start(folder) == Running(process.pid, 8417)
        assert start(folder) == Running(process.pid, 8417)
        process.communicate("")
    held = start(folder)
    assert isinstance(held, Started)
    held.stop()


def test_a_start_that_does_not_answer_yet_has_no_port(folder: Folder) -> None:
    """In the moment between start and first page the second start knows that it must wait."""
    held = start(folder)
    assert isinstance(held, Started)
    assert start(folder) == Running(os.getpid(), None)
    held.answers_at(8417)
    assert start(folder) == Running(os.getpid(), 8417)
    held.stop()


def test_the_port_stays_from_start_to_start(folder: Folder) -> None:
    """A bookmark of the pages works the next day, also after a start that never got so far."""
    held = start(folder)
    assert isinstance(held, Started)
    assert held.port is None
    held.answers_at(8417)
    held.stop()
    for _ in range(3):
        held = start(folder)
        assert isinstance(held, Started)
        assert held.port == 8417
        held.stop()


@pytest.mark.skipif(os.name == "nt", reason="Windows has no SIGKILL")
def test_a_lock_left_by_a_killed_program_is_none(folder: Folder) -> None:
    """After a power cut or a kill the next start just starts, at the same port."""
    with holder(folder, 8417) as process:
        process.send_signal(signal.SIGKILL)
    held = start(folder)
    assert isinstance(held, Started)
    assert held.port == 8417
    held.stop()


def test_a_process_number_used_again_is_no_lock(folder: Folder) -> None:
    """A file that names a process which is now another program's holds nobody up."""
    folder.running.write_text(json.dumps({"pid": os.getppid(), "port": 8417, "last port": 8417}))
    held = start(folder)
    assert isinstance(held, Started)
    assert held.port == 8417
    held.stop()


@pytest.mark.parametrize(
    "text",
    ["", "[]", "{", "null", '{"port": "84"}', '{"port": -1}', '{"last port": 70000}', "\0" * 300],
)
def test_a_spoilt_file_is_written_anew(folder: Folder, text: str) -> None:
    """A file that was cut off or written by hand stops nobody from starting."""
    folder.running.write_text(text, encoding="utf-8")
    held = start(folder)
    assert isinstance(held, Started)
    assert held.port is None
    held.answers_at(8417)
    assert json.loads(folder.running.read_text(encoding="utf-8"))["port"] == 8417
    held.stop()


@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system does not fork")
def test_a_process_forked_off_does_not_hold_the_lock(folder: Folder) -> None:
    """A worker that outlives the program it was forked from keeps nobody from starting."""
    code = (
        "import os, sys, time\nfrom pathlib import Path\nfrom dryfit.store.folder import Folder\n"
        "from dryfit.store.running import start\n"
        "held = start(Folder(Path(sys.argv[1])))\n"
        "if os.fork() == 0:\n    print(os.getpid(), flush=True)\n    time.sleep(60)\n"
        "os._exit(0)\n"
    )
    words = [sys.executable, "-c", code, str(folder.path)]
    with subprocess.Popen(words, stdout=subprocess.PIPE, text=True, env=ENVIRONMENT) as process:
        assert process.stdout
        child = int(process.stdout.readline())
    try:
        again = start(folder)
        assert isinstance(again, Started)
        again.stop()
    finally:
        os.kill(child, signal.SIGKILL)
