"""Writes to a store until it is killed, and says of each write when it is done.

Run as a program: `writer.py FOLDER FIRST LAST [MOMENT]`. Each write is an edit, a reading or a
photograph, by turns; its line is printed after the store has answered, and not before. At MOMENT,
`between`, it kills itself when the file of a photograph is on the disk and its row is not.
"""

import os
import signal
import sys
from hashlib import sha256
from io import BytesIO

from PIL import Image

from dryfit.document.edit import Edit
from dryfit.store import photographs
from dryfit.store.edits import Written, write
from dryfit.store.journal import Reading, note
from dryfit.store.opening import Store, open_store
from dryfit.store.revisions import begin, newest, rebuilds

SHORT = "dryfit: 1\nsizes in: mm\nsizes:\n  first: 1\n"


def picture(number: int) -> bytes:
    """Draw a photograph that is like no other: its pixels are hashes of its number."""
    seed = b"".join(sha256(f"{number} {n}".encode()).digest() for n in range(1200))
    file = BytesIO()
    Image.frombytes("RGB", (160, 80), seed).save(file, "PNG")
    return file.getvalue()


def write_one(store: Store, rebuild: int, number: int) -> str:
    """Write one thing and say what the store must have from now on."""
    if number % 3 == 0:
        edit = Edit("add", ("sizes", f"size {number}"), typed=f"{number}.50")
        outcome = write(store, rebuild, edit, saw=newest(store, rebuild).number)
        assert isinstance(outcome, Written)
        return f"edit {number} {outcome.revision.number}"
    if number % 3 == 1:
        entry = note(store, rebuild, Reading("end float", f"{number}.75"))
        return f"reading {number} {entry.number}"
    kept = photographs.add_photograph(store, rebuild, picture(number), caption=f"n{number}")
    return f"photograph {number} {kept.sha256}"


def kill_between() -> None:
    """Let the next photograph be the last thing this program does."""

    def killed(*_: object, **__: object) -> None:
        os.kill(os.getpid(), signal.SIGKILL)

    photographs.picture_in = killed  # type: ignore[assignment]


def main() -> None:
    """Write from the first to the last number."""
    store = open_store(sys.argv[1])
    rebuild = (rebuilds(store) or [begin(store, SHORT.encode()).rebuild])[0]
    if sys.argv[4:] == ["between"]:
        kill_between()
    print("ready", flush=True)
    for number in range(int(sys.argv[2]), int(sys.argv[3])):
        print(write_one(store, rebuild, number), flush=True)
    store.close()


if __name__ == "__main__":
    main()
