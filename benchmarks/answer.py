"""How long the answer to a rebuild takes, beside the same chain by other means.

One demo, the feed box: float = case + gasket - cover boss - shaft - shim. It is answered whole,
and after an edit of one size; the chances of the same candidate packs are also found by a plain
Python loop, and the band of the reading by the package `uncertainties`. NOTES says what each side
does more or less. The sides must agree on the figures, else the benchmark ends with an error.
"""

import random
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from math import sqrt
from pathlib import Path
from statistics import median
from textwrap import wrap
from typing import TYPE_CHECKING, Any

from uncertainties import ufloat

from dryfit.app.usecases import demos
from dryfit.app.usecases.choose import ChooseAnswer, ChooseRequest, choose
from dryfit.ask.asking import DRAWS, FIRST_LOOK, Asking
from dryfit.ask.settings import chance
from dryfit.ask.targets import targets
from dryfit.document.edit import Edit, splice
from dryfit.document.read import read_document
from dryfit.solve import luck

if TYPE_CHECKING:
    from benchmarks import _timing as timing
else:  # a script's own folder is on the path, the one above is not
    import _timing as timing

ROUNDS = 15
PROCESSES = 9

FIRST, AGAIN = "whole answer, first in a process", "whole answer, again"
EDITED, MODEL = "edit of one size, and its answer", "chances of the packs alone"
LOOP, LINEAR = "plain Python loop: the same chances", "uncertainties: one band"

NOTES = (
    "Draws are made anew for every run; nothing is kept from the run before.",
    "whole answer: reads the text and checks it, finds the pack among the candidates cold and hot, "
    "goes three routes, says what each check should read with reasons for more and less, and what "
    "to measure better. 'First in a process' is after import; it still loads what is loaded late; "
    "its ratios are those of medians.",
    "edit: splices one size into the text, reads the text back to prove the edit, then answers.",
    "chances of the packs alone: what the loop does, by the model that also knows of contacts that "
    "open, covers and more than one stack. The text is read before.",
    "plain loop: the sum written by hand, same distributions, same count of draws and packs; no "
    "text, no contacts, no hot state, no routes, no readings. What a spreadsheet or a short script "
    "would do.",
    "uncertainties: the sum written by hand, linear, one pack; standard deviations alone, so no "
    "shapes, no chances, nothing of a float that cannot go below nought. It answers far less.",
)

FIRST_CALL = """
from time import perf_counter
from dryfit.app.usecases import demos
from dryfit.app.usecases.choose import ChooseRequest, choose
request = ChooseRequest(demos.text(demos.FIRST))
start = perf_counter()
choose(request)
print(perf_counter() - start)
"""


@dataclass(frozen=True, slots=True)
class Scale:
    """Half width of an instrument's rectangle [mm], and the share common to all its readings."""

    limit: float
    shared: float

    @property
    def own(self) -> float:
        """Share that is each reading's own [-]."""
        return sqrt(1 - self.shared**2)


# The rows of dryfit's table of instruments at these lengths, written out as a user would.
CASE, BOSS = (152.36, Scale(0.009047, 0.7)), (3.42, Scale(0.0060684, 0.7))
SHAFT, SHIM = (148.70, Scale(0.030, 0.7)), Scale(0.004, 0.7)
GASKET, GASKET_SD = 0.21, 0.01
DIAL = Scale(0.010, 0.3)
LOW, HIGH = 0.05, 0.15

SAME_CHANCE = 0.02
"""The difference of two shares of 20 000 draws each has at most the standard deviation
sqrt(2 x 0.5 x 0.5 / 20 000) = 0.005 [-]; four of these."""

SAME_BAND = 0.002
"""What an end of the linear band may differ from that of the drawn one [mm]. The deviation is
0.022, half of it the caliper's two equal rectangles, alone 1.675 deviations wide at nine tenths
where the normal is 1.645: 0.001 at most. Four deviations of a 5 % point of 20 000 draws,
sqrt(0.05 x 0.95 / 20 000) / (0.103 / 0.022) = 0.0003 each, are as much again."""


def forget_draws() -> None:
    """Empty what the draws are kept in."""
    luck._normal.cache_clear()
    luck._flat.cache_clear()


def loop(packs: tuple[float, ...], draws: int = DRAWS) -> list[float]:
    """Find the chance of every pack draw by draw, with nothing but the standard library."""
    uniform, gauss = random.Random(1).uniform, random.Random(2).gauss
    case, boss, shaft = CASE[1], BOSS[1], SHAFT[1]
    good = [0] * len(packs)
    for _ in range(draws):
        depth = uniform(-1, 1)
        room = CASE[0] + case.limit * (case.shared * depth + case.own * uniform(-1, 1))
        room -= BOSS[0] + boss.limit * (boss.shared * depth + boss.own * uniform(-1, 1))
        room += gauss(GASKET, GASKET_SD)
        room -= SHAFT[0] + shaft.limit * (
            shaft.shared * uniform(-1, 1) + shaft.own * uniform(-1, 1)
        )
        room -= SHIM.limit * (SHIM.shared * uniform(-1, 1) + SHIM.own * uniform(-1, 1))
        for n, pack in enumerate(packs):
            good[n] += LOW <= room - pack <= HIGH
    return [count / draws for count in good]


def linear(pack: float) -> tuple[float, float]:
    """Give the band in which nine readings in ten lie, by standard deviations alone [mm]."""

    def error(scale: Scale, common: Any) -> Any:
        return scale.limit * (scale.shared * common + scale.own * rectangle())

    def rectangle() -> Any:
        return ufloat(0, 1 / sqrt(3))

    depth = rectangle()
    case, boss = CASE[0] + error(CASE[1], depth), BOSS[0] + error(BOSS[1], depth)
    shaft, shim = SHAFT[0] + error(SHAFT[1], rectangle()), pack + error(SHIM, rectangle())
    reading = case + ufloat(GASKET, GASKET_SD) - boss - shaft - shim + error(DIAL, rectangle())
    half = 1.645 * reading.std_dev
    return reading.nominal_value - half, reading.nominal_value + half


def by_model(data: bytes, packs: tuple[float, ...]) -> Callable[[], list[float]]:
    """Find the chance of every pack by dryfit's model."""
    rebuild = read_document(data).rebuild
    wanted, (shim,) = targets(rebuild), rebuild.settings

    def act() -> list[float]:
        asking = Asking(rebuild, DRAWS)
        return [chance(asking, wanted, {shim: pack / 1e3}) for pack in packs]

    return act


def edited(text: str) -> Callable[[], ChooseAnswer]:
    """Type another size in each run and answer at a first look's count of draws."""
    place = ("sizes", "shaft")
    sizes = iter(range(10_000))

    def act() -> ChooseAnswer:
        typed = f"148.{70 + next(sizes) % 5}"
        done = splice(text, Edit("set", place, typed=typed))
        if done.findings:
            raise SystemExit(f"the edit was refused: {done.findings[0].message}")
        return choose(ChooseRequest(done.text.encode(), FIRST_LOOK))

    return act


def first_calls() -> float:
    """Answer once in each of several new processes [s]."""
    root = Path(__file__).resolve().parent.parent
    command = [sys.executable, "-c", FIRST_CALL]
    said = [
        subprocess.run(command, cwd=root, capture_output=True, text=True, check=True).stdout
        for _ in range(PROCESSES)
    ]
    return median(float(seconds) for seconds in said)


def compare(answer: ChooseAnswer, packs: tuple[float, ...], model: list[float]) -> str:
    """Make sure that all sides answer the same question."""
    drawn = [likely for _, likely in answer.settings[0].tried]
    pairs = zip(drawn, loop(packs), model, strict=True)
    apart = max(max(three) - min(three) for three in pairs)
    check, pack = answer.checks[0], answer.settings[0].pack
    if pack is None or check.low_mm is None or check.high_mm is None:
        raise SystemExit("the demo has no pack or no band: nothing to compare")
    low, high = linear(pack.thickness_mm)
    off = max(abs(low - check.low_mm), abs(high - check.high_mm))
    if apart > SAME_CHANCE or off > SAME_BAND:
        raise SystemExit(f"the sides differ: chances by {apart:.3f}, bands by {off:.4f} mm")
    return f"chances agree within {apart:.4f}, bands within {off:.4f} mm"


def main() -> None:
    """Time all sides and print the table."""
    data = demos.text(demos.FIRST)
    answer = choose(ChooseRequest(data))
    packs = tuple(pack for pack, _ in answer.settings[0].tried)
    fitted, model = packs[len(packs) // 2], by_model(data, packs)
    agreed = compare(answer, packs, model())
    sides: dict[str, timing.Act] = {
        AGAIN: lambda: choose(ChooseRequest(data)),
        EDITED: edited(data.decode()),
        MODEL: model,
        LOOP: lambda: loop(packs),
        LINEAR: lambda: linear(fitted),
    }
    runs = timing.in_turn(sides, ROUNDS, before=forget_draws)
    print(f"{timing.machine()}\nfeed box, {len(packs)} packs; medians of {ROUNDS} rounds in turn")
    print(f"{agreed}\n\n{timing.table(rows_of(runs, first_calls()))}\n")
    for note in NOTES:
        print("\n".join(wrap(note, 88, subsequent_indent="  ")))


def rows_of(runs: timing.Runs, first: float) -> list[tuple[str, ...]]:
    """Write the figures of all sides."""
    counts = {EDITED: f"{FIRST_LOOK}", LINEAR: "none"}
    aims = {AGAIN: 0.1, EDITED: 0.05}
    rows: list[tuple[str, ...]] = [
        ("side", "draws", "median", "to loop", "to uncertainties", "aim")
    ]
    ratio = first / runs.median(LOOP), first / runs.median(LINEAR)
    shown = [timing.times(value) for value in ratio]
    rows.append((FIRST, f"{DRAWS}", timing.ms(first), *shown, timing.aim(first, 0.1)))
    for side in runs.seconds:
        seconds = runs.median(side)
        shown = [timing.times(runs.ratio(side, to)) for to in (LOOP, LINEAR)]
        goal = timing.aim(seconds, aims[side]) if side in aims else ""
        rows.append((side, counts.get(side, f"{DRAWS}"), timing.ms(seconds), *shown, goal))
    return rows


if __name__ == "__main__":
    main()
