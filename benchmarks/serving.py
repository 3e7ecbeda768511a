"""How long until the first page stands from a cold start, what it weighs, and what else waits.

`dryfit open` is started on an empty folder and asked for its first page, beside the smallest
application of the same framework on the same server, started and asked alike. Then the first page
is asked for again and again while the order of a document of 61 steps is being found, beside the
same with nothing going on. NOTES says what each side holds.
"""

import http.client
import os
import re
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from statistics import median, quantiles
from textwrap import wrap
from typing import TYPE_CHECKING

from dryfit.store.opening import opened
from dryfit.store.revisions import begin

if TYPE_CHECKING:
    from benchmarks import _timing as timing
else:  # a script's own folder is on the path, the one above is not
    import _timing as timing

ROOT = Path(__file__).resolve().parent.parent
ROUNDS, ASKED = 9, 120
FIRST_AIM, BUSY_AIM = 1.0, 0.1

DRYFIT, BARE = "dryfit open", "one line of text, same framework and server"

HELLO = """
import socket, uvicorn
from starlette.applications import Starlette
from starlette.responses import PlainTextResponse
from starlette.routing import Route
async def hello(request):
    return PlainTextResponse("hello")
listening = socket.socket()
listening.bind(("127.0.0.1", 0))
listening.listen()
print(f"open at http://127.0.0.1:{listening.getsockname()[1]}/?key=none", flush=True)
config = uvicorn.Config(Starlette(routes=[Route("/", hello)]), log_level="warning", lifespan="off")
uvicorn.Server(config).run(sockets=[listening])
"""

NOTES = (
    "first page: from the start of the process to the last byte of the page, style sheets and "
    "scripts not counted; dryfit has made its folder and its database in that time.",
    "weight: the page and all that it names, uncompressed, as on this machine it goes nowhere.",
    "while an order is found: in a process of its own, on the same cores.",
    "memory: what the system counts as resident (Linux alone), of the process that serves and of "
    "those it has started to work, after that order.",
)


@dataclass
class Server:
    """A process that serves: how it is asked."""

    process: subprocess.Popen[str]
    port: int
    key: str

    def get(self, path: str = "/") -> bytes:
        """Ask for a page; what is not answered well ends the benchmark."""
        wire = http.client.HTTPConnection("127.0.0.1", self.port, timeout=60)
        wire.request("GET", path, headers={"cookie": f"dryfit-{self.port}={self.key}"})
        answer = wire.getresponse()
        told = answer.read()
        wire.close()
        assert answer.status == 200, (path, answer.status, told[:200])
        return told


@contextmanager
def serving(*words: str) -> Iterator[Server]:
    """Start a server, and end it."""
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    process = subprocess.Popen(
        [sys.executable, *words], cwd=ROOT, env=environment, stdout=subprocess.PIPE, text=True
    )
    assert process.stdout is not None
    line = process.stdout.readline()
    found = re.search(r"open at http://127\.0\.0\.1:(\d+)/\?key=(\S+)", line)
    assert found, line
    try:
        yield Server(process, int(found[1]), found[2])
    finally:
        process.terminate()
        process.communicate()


def first_pages() -> timing.Runs:
    """Time both starts in turn."""

    def dryfit() -> None:
        with (
            tempfile.TemporaryDirectory() as home,
            serving("-m", "dryfit", "open", "--in", home, "--no-browser") as server,
        ):
            server.get()

    def bare() -> None:
        with serving("-c", HELLO) as server:
            server.get()

    return timing.in_turn({DRYFIT: dryfit, BARE: bare}, ROUNDS)


def weight(server: Server) -> dict[str, int]:
    """Say how many bytes the first page and what it names have."""
    page = server.get()
    named = dict.fromkeys(re.findall(r'(?:href|src)="(/static/[^"#]+)', page.decode()))
    return {"the page": len(page)} | {path: len(server.get(path)) for path in named}


def large() -> bytes:
    """Give the document of docs/format.md, the largest there is."""
    page = (ROOT / "docs" / "format.md").read_text(encoding="utf-8")
    found = re.search(r"```yaml\n(.*?)```", page, re.DOTALL)
    assert found
    return found[1].encode()


def asked(server: Server, until: threading.Event) -> list[float]:
    """Ask for the first page again and again."""
    taken: list[float] = []
    while len(taken) < ASKED and not (until.is_set() and len(taken) > ASKED // 4):
        begun = time.perf_counter()
        server.get()
        taken.append(time.perf_counter() - begun)
        time.sleep(0.02)
    return taken


def resident(process: int) -> int:
    """Say how much memory a process has [B]; 0 where the system does not tell."""
    try:
        told = Path(f"/proc/{process}/status").read_text(encoding="ascii")
    except OSError:
        return 0
    found = re.search(r"VmRSS:\s+(\d+) kB", told)
    return int(found[1]) * 1000 if found else 0


def workers(process: int) -> list[int]:
    """List the processes a process has started."""
    tasks = Path(f"/proc/{process}/task").glob("*/children")  # nothing elsewhere than on Linux
    return [int(one) for task in tasks for one in task.read_text(encoding="ascii").split()]


def p95(taken: list[float]) -> float:
    """Give the time that 19 in 20 stay under."""
    return quantiles(taken, n=20)[-1]


def busy() -> tuple[list[float], list[float], list[int]]:
    """Ask with nothing going on, and while an order is found; give the memory used, too."""
    with tempfile.TemporaryDirectory() as home:
        with opened(home) as store:
            begin(store, large())
        with serving("-m", "dryfit", "open", "--in", home, "--no-browser") as server:
            server.get("/unit/1/book/file/drawing.svg")  # both processes have loaded all by then
            done = threading.Event()
            quiet = asked(server, done)

            def order() -> None:
                server.get("/unit/1/book/sheet/order")
                done.set()

            other = threading.Thread(target=order)
            other.start()
            during = asked(server, done)
            other.join()
            memory = [resident(one) for one in (server.process.pid, *workers(server.process.pid))]
    return quiet, during, memory


def main() -> None:
    """Measure and print the tables."""
    print(timing.machine())
    runs = first_pages()
    rows: list[tuple[str, ...]] = [("first page, cold", "median", "to the smallest", "aim")]
    for side, aim in ((DRYFIT, timing.aim(runs.median(DRYFIT), FIRST_AIM)), (BARE, "")):
        ratio = timing.times(runs.ratio(side, BARE))
        rows.append((side, timing.ms(runs.median(side)), ratio, aim))
    print("\n" + timing.table(rows))
    with (
        tempfile.TemporaryDirectory() as home,
        serving("-m", "dryfit", "open", "--in", home, "--no-browser") as server,
    ):
        weights = weight(server)
    heavy = [("weight", "bytes"), *((name, str(size)) for name, size in weights.items())]
    print("\n" + timing.table([*heavy, ("together", str(sum(weights.values())))]))
    quiet, during, memory = busy()
    rows = [("the first page, 19 in 20 within", "p95", "median", "to quiet", "aim")]
    for side, taken in (("with nothing going on", quiet), ("while an order is found", during)):
        ratio = timing.times(median(taken) / median(quiet))
        aim = timing.aim(p95(taken), BUSY_AIM)
        rows.append((side, timing.ms(p95(taken)), timing.ms(median(taken)), ratio, aim))
    print("\n" + timing.table(rows))
    names = ("serves", "works", "works")
    told = ", ".join(
        f"{name} {size / 1e6:.0f} MB" for name, size in zip(names, memory, strict=False)
    )
    print(f"\nmemory: {told}; asked {len(during)} times while the order was found\n")
    print(*("\n".join(wrap(note, 100)) for note in NOTES), sep="\n")


if __name__ == "__main__":
    main()
