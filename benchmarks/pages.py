"""How long from leaving a box until the drawing and the numbers are those of the new size.

A `dryfit open` of its own is asked as the page does: the box is posted, the page that answers is
read, then the drawing and the numbers are fetched side by side. Each round types another size, so
that nothing is known already. Beside it stand the same answers asked for without pages. NOTES says
what each side holds.
"""

import http.client
import tempfile
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass
from statistics import median
from textwrap import wrap
from typing import TYPE_CHECKING
from urllib.parse import quote, urlencode

from dryfit.app.pages import tasks
from dryfit.app.usecases import demos
from dryfit.store.opening import opened
from dryfit.store.revisions import begin

if TYPE_CHECKING:
    from benchmarks import _timing as timing
    from benchmarks import serving
else:  # a script's own folder is on the path, the one above is not
    import _timing as timing
    import serving

ROUNDS = 20
AIM = 0.3

NOTES = (
    "page: the box posted, kept on the disk, and the page that answers, without arithmetic.",
    "drawing: from the post to the last byte of the new drawing, with all that was found.",
    "numbers: from the post to the chance and what each size is worth, by 2 000 draws, worked out "
    "beside the drawing in a process of its own.",
    "bare: the three answers one after the other in this process, without pages, text opened once.",
)


@dataclass(frozen=True)
class Unit:
    """A demo, the part whose size is typed, and how it stands in the text."""

    demo: str
    part: str
    key: str
    seen: str
    typed: Callable[[int], str]


UNITS = (
    Unit("lay-shaft", "cluster", "cluster", "4.5560", lambda n: f"4.55{n:02d}"),
    Unit("feed-box", "shaft", "shaft", "148.70", lambda n: f"148.{n:02d}"),
    Unit("headstock", "distance piece", "distance piece", "43.525", lambda n: f"43.5{n:02d}"),
    Unit("bevel-box", "sleeve", "sleeve", "22.000 by comparator", lambda n: f"22.0{n:02d}"),
)


@dataclass
class Taken:
    """Times of one unit, from the post on [s]."""

    page: list[float]
    drawing: list[float]
    numbers: list[float]
    bare: list[float]


def post(server: serving.Server, path: str, **fields: str) -> None:
    """Post a form; what is not kept ends the benchmark."""
    wire = http.client.HTTPConnection("127.0.0.1", server.port, timeout=120)
    home = f"http://127.0.0.1:{server.port}"
    headers = {
        "cookie": f"dryfit-{server.port}={server.key}",
        "origin": home,
        "content-type": "application/x-www-form-urlencoded",
    }
    wire.request("POST", path, urlencode(fields), headers)
    answer = wire.getresponse()
    told = answer.read()
    wire.close()
    assert answer.status == 303, (answer.status, told[:300])


def fetched(server: serving.Server, path: str, begun: float, into: list[float]) -> threading.Thread:
    """Fetch a piece beside others."""

    def fetch() -> None:
        server.get(path)
        into.append(time.perf_counter() - begun)

    thread = threading.Thread(target=fetch)
    thread.start()
    return thread


def round_of(server: serving.Server, unit: Unit, seen: str, typed: str, taken: Taken) -> None:
    """Type one size and wait for all that follows."""
    begun = time.perf_counter()
    place = f'["sizes", "{unit.key}"]'
    post(server, "/unit/1/box", place=place, seen=seen, typed=typed, at=unit.part)
    server.get(f"/unit/1/measure/{quote(unit.part)}")
    taken.page.append(time.perf_counter() - begun)
    drawing = fetched(server, f"/unit/1/drawing/{quote(unit.part)}", begun, taken.drawing)
    numbers = fetched(server, f"/unit/1/numbers/{quote(unit.part)}", begun, taken.numbers)
    drawing.join()
    numbers.join()


def bare(text: bytes) -> float:
    """Ask for the same without pages."""
    begun = time.perf_counter()
    tasks.picture(text)
    answer = tasks.choose(text, tasks.FIRST_LOOK)
    packs = tuple((s.part, s.in_hand_mm) for s in answer.settings if s.in_hand_mm is not None)
    tasks.matters(text, packs, tasks.FIRST_LOOK)
    return time.perf_counter() - begun


def measured(unit: Unit) -> Taken:
    """Measure one unit; the first two rounds warm up and do not count."""
    taken = Taken([], [], [], [])
    text = demos.text(unit.demo)
    with tempfile.TemporaryDirectory() as home:
        with opened(home) as store:
            begin(store, text)
        with serving.serving("-m", "dryfit", "open", "--in", home, "--no-browser") as server:
            seen = unit.seen
            for n in range(ROUNDS + 2):
                typed = unit.typed(n + 10)
                round_of(server, unit, seen, typed, taken)
                seen = typed
                line = f"{unit.key}: {unit.seen}".encode()
                assert line in text
                taken.bare.append(bare(text.replace(line, f"{unit.key}: {typed}".encode())))
    return Taken(taken.page[2:], taken.drawing[2:], taken.numbers[2:], taken.bare[2:])


def main() -> None:
    """Measure and print the table."""
    print(f"{timing.machine()}\n{ROUNDS} sizes typed into each unit\n")
    rows: list[tuple[str, ...]] = [
        ("p95 (median)", "page", "drawing", "numbers", "bare", "numbers to bare", "aim")
    ]
    for unit in UNITS:
        taken = measured(unit)
        sides = (taken.page, taken.drawing, taken.numbers, taken.bare)
        told = [f"{timing.ms(serving.p95(side))} ({timing.ms(median(side))})" for side in sides]
        ratio = median(a / b for a, b in zip(taken.numbers, taken.bare, strict=True))
        aim = timing.aim(serving.p95(taken.numbers), AIM)
        rows.append((unit.demo, *told, timing.times(ratio), aim))
    print(timing.table(rows))
    print("\n" + "\n".join("\n".join(wrap(note, 100)) for note in NOTES))


if __name__ == "__main__":
    main()
