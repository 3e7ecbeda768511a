"""Who visits the pages in tests: over the wire without a browser, and a `dryfit open` that runs."""

import http.client
import re
import subprocess
import sys
import urllib.parse
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from starlette.testclient import TestClient

from dryfit.app.pages import tasks
from dryfit.app.pages.desk import Desk
from dryfit.app.usecases import demos
from dryfit.store.opening import Store
from dryfit.store.revisions import begin, newest

KEY = "a-key"
PORT = 8642
HOME = f"http://127.0.0.1:{PORT}"


class HereDesk(Desk):
    """Works all out at once, in the process of the tests."""

    def warm(self) -> None:
        """Start nothing."""

    async def ask(self, name: str, data: bytes, *arguments: Any, **_: Any) -> Any:
        """Do it now."""
        return tasks.TASKS[name](data, *arguments)


@dataclass
class Visitor:
    """Somebody at the pages: reads them and posts what their forms would."""

    client: TestClient
    store: Store

    def begin(self, text: bytes | str) -> int:
        """Keep a new unit."""
        return begin(self.store, text.encode() if isinstance(text, str) else text).rebuild

    def demo(self, name: str = "bevel-box") -> int:
        """Keep a demo as a new unit."""
        return self.begin(demos.text(name))

    def text(self, unit: int) -> str:
        """Give the newest text of a unit."""
        return newest(self.store, unit).text

    def read(self, path: str, status: int = 200) -> str:
        """Read a page."""
        answer = self.client.get(path)
        assert answer.status_code == status, answer.text
        return answer.text

    def data(self, path: str) -> Any:
        """Read the data of a page."""
        return self.client.get(path, params={"as": "json"}).json()

    def post(self, path: str, status: int = 200, files: Any = None, **fields: str) -> str:
        """Post a form and follow where it leads."""
        answer = self.client.post(path, data=fields, files=files, headers={"origin": HOME})
        assert answer.status_code == status, answer.text
        return answer.text


@dataclass
class Opened:
    """A `dryfit open` that runs: its address with the key, and where it keeps all."""

    address: str
    home: Path
    process: subprocess.Popen[str]

    @property
    def base(self) -> str:
        """The address without the key."""
        return self.address.partition("/?")[0]

    def ask(self, path: str, **fields: str) -> tuple[int, str]:
        """Read a page, or post a form where there are fields, as the browser with the key does."""
        body = urllib.parse.urlencode(fields).encode()
        return self.send(path, body, "application/x-www-form-urlencoded")

    def send(self, path: str, body: bytes, kind: str) -> tuple[int, str]:
        """Post something as it is; read a page where it is nothing."""
        host, key = re.findall(r"http://([^/]+)/\?key=(\S+)", self.address)[0]
        wire = http.client.HTTPConnection(host, timeout=60)
        headers = {"cookie": f"dryfit-{host.partition(':')[2]}={key}", "origin": f"http://{host}"}
        try:
            wire.request(
                "POST" if body else "GET", path, body or None, headers | {"content-type": kind}
            )
            answer = wire.getresponse()
            return answer.status, answer.read().decode(errors="replace")
        finally:
            wire.close()

    def close(self) -> None:
        """End it, as Ctrl-C does."""
        self.process.terminate()
        self.process.communicate(timeout=10)


def open_dryfit(home: Path) -> Opened:
    """Start `dryfit open` and wait until it prints its address."""
    command = [sys.executable, "-m", "dryfit", "open", "--in", str(home), "--no-browser"]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    said = ""
    while not (found := re.search(r"open at (http://\S+)", said)):
        assert process.stdout is not None
        line = process.stdout.readline()
        assert line, f"dryfit ended: {said}"
        said += line
    return Opened(found[1], home, process)
