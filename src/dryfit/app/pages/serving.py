"""`dryfit open`: the pages started, or those of a dryfit that runs already shown."""

import secrets
import signal
import socket
import sys
import webbrowser
from collections.abc import Callable
from contextlib import closing, suppress
from pathlib import Path

from dryfit.store import files
from dryfit.store.folder import Folder, data_folder
from dryfit.store.running import Running, Started, start
from dryfit.store.trouble import Trouble, told

HERE = "127.0.0.1"
KEY = "key"
"""Name of the file with the key, which only its owner may read."""

Say = Callable[[str], None]


def open_pages(folder: str | Path | None, say: Say, *, browser: bool = True) -> None:
    """Show the pages until they are closed; where they are open already, show those."""
    place = data_folder(folder)
    right = start(place)
    if isinstance(right, Running):
        _show_running(place, right, say, browser=browser)
        return
    try:
        _serve(place, right, say, browser=browser)
    finally:
        right.stop()


def key_of(folder: Folder) -> str:
    """Give the key of a data folder, made at the first use and the same from then on."""
    path = folder.path / KEY
    with told(path):
        if not path.exists() or not path.read_text("ascii", "replace").strip():
            files.write_secret(path, secrets.token_urlsafe(32))
        return path.read_text("ascii", "replace").strip()


def _show_running(folder: Folder, running: Running, say: Say, *, browser: bool) -> None:
    if running.port is None:
        message = "dryfit is being started by another window"
        raise Trouble("open.starting", message, "wait a moment, then do this again")
    address = _address(running.port, key_of(folder))
    say(f"dryfit is open already, at {address}")
    if browser:
        webbrowser.open(address)


def _serve(folder: Folder, right: Started, say: Say, *, browser: bool) -> None:
    import uvicorn  # not needed where another one runs

    from dryfit.app.pages.doors import Doors
    from dryfit.app.pages.ending import Server
    from dryfit.app.pages.guard import Guard

    signal.signal(signal.SIGTERM, lambda *_: sys.exit(0))  # uvicorn raises it again at its end
    with _listening(right.port) as listening:
        port = int(listening.getsockname()[1])
        key = key_of(folder)
        address = _address(port, key)
        with closing(Doors(folder, say)) as doors:
            right.answers_at(port)
            say(f"dryfit is open at {address}")
            say(f"All is kept in {folder.path}. Close it with Ctrl-C.")
            if browser:
                webbrowser.open(address)
            app = Guard(doors, key=key, port=port)
            config = uvicorn.Config(
                app,
                log_level="warning",
                lifespan="off",
                timeout_graceful_shutdown=1,
                server_header=False,
            )
            with suppress(KeyboardInterrupt):  # Ctrl-C is how it is closed
                Server(config, doors.let_go).run(sockets=[listening])
    say("dryfit is closed; all is kept.")


def _listening(port: int | None) -> socket.socket:
    """Listen at the port of last time; at another where somebody else has it now."""
    for wanted in (port or 0, 0):
        listening = socket.socket()
        if not hasattr(socket, "SO_EXCLUSIVEADDRUSE"):  # elsewhere than on Windows
            listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listening.bind((HERE, wanted))
            listening.listen()
        except OSError:
            listening.close()
        else:
            return listening
    message = f"no port of this machine ({HERE}) could be opened"
    raise Trouble("open.port", message, "see whether a firewall forbids it, then do this again")


def _address(port: int, key: str) -> str:
    return f"http://{HERE}:{port}/?key={key}"
