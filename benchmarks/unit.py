"""How long a whole unit takes: every check in its state, by arrays and by compiled steps.

First the largest units of the tests, all checks, with 20 000 draws and with 2 000, and the whole
sheet of a demo. Then how time grows with the parts of one line: sets of bearings with spacers
between their rings, clamped by a nut and a threaded ring, each bearing a branch.
"""

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from dryfit.app.usecases import demos
from dryfit.app.usecases.choose import ChooseRequest, choose
from dryfit.app.usecases.opening import open_text
from dryfit.ask.asking import Asking, usual_draws
from dryfit.ask.moved import moved
from dryfit.model.rebuild import Rebuild
from dryfit.solve import equilibrium
from dryfit.solve.benchtop import lay_on
from dryfit.solve.luck import Luck, NoLuck, full
from dryfit.solve.predict import predict
from dryfit.solve.sample import sample
from dryfit.solve.series import runs
from dryfit.solve.states import COLD, Fitted

if TYPE_CHECKING:
    from benchmarks import _timing as timing
else:  # a script's own folder is on the path, the one above is not
    import _timing as timing

TESTS = Path(__file__).resolve().parent.parent / "tests"
UNITS = ("giving/bevel-drive", "giving/quill", "giving/change-box")
SHEET, EDIT, ROUNDS = 20_000, 2_000, 5
NUMBA = equilibrium.compiler() is not None
STATIONS = (2, 5, 10, 20)
"""Bearings on the line that grows; four parts stand besides, and each has two spacers."""

LINE = """
dryfit: 1
sizes in: mm
measured with: micrometer
title: Long spindle
lines:
  spindle:
    from nose to tail:
      on the spindle: [spindle.shoulder, {inner}, nut]
      in the case:    [case.step, {outer}, ring]
parts:
  case: {{kind: housing}}
  spindle: {{kind: shaft}}
  nut: {{kind: nut, thread: M35x1.5, torque: 28 N.m}}
  ring: {{kind: threaded ring, thread: M64x2, torque: 45 N.m}}
{parts}
sizes:
{sizes}
checks:
  float: {{kind: end float, of: spindle, push: 60 N}}
"""


def long_line(stations: int) -> str:
    """Write a spindle with so many bearings."""
    inner, outer, parts, sizes = [], [], [], []
    for n in range(stations):
        way = "tail" if n % 2 else "nose"
        parts.append(
            f"  b{n}: {{kind: angular contact ball, bore: 35, outside: 62, angle: 25 deg, "
            f"width: 14.000 +/- 0.001, stops shaft going: {way}, ground for: 150 N}}"
        )
        inner.append(f"b{n}")
        outer.append(f"b{n}")
        if n + 1 < stations:
            parts.append(f"  i{n}: {{kind: spacer, bore: 35, outside: 43}}")
            parts.append(f"  o{n}: {{kind: spacer, bore: 54, outside: 62}}")
            sizes += [f"  i{n}: 20.000", f"  o{n}: 20.000"]
            inner.append(f"i{n}")
            outer.append(f"o{n}")
    texts = {"parts": "\n".join(parts), "sizes": "\n".join(sizes)}
    return LINE.format(inner=", ".join(inner), outer=", ".join(outer), **texts)


def answered(rebuild: Rebuild, draws: int, *, compiled: bool) -> None:
    """Draw all sizes anew and ask for every check."""
    equilibrium.COMPILED = compiled
    luck = Luck(draws)
    drawn = sample(rebuild, luck)
    packs = {
        name: full(luck, float(own.fitted.value) * 1e-3 if own.fitted else 0.1e-3)
        for name, own in rebuild.settings.items()
    }
    for check in rebuild.checks.values():
        predict(rebuild, check, drawn, packs=packs)


def sheet(data: bytes, *, compiled: bool) -> None:
    """Answer all that is asked of a unit before it is closed."""
    equilibrium.COMPILED = compiled
    choose(ChooseRequest(data))


class Edits:
    """One unit whose cover shim is moved by a hundredth each time, and all asked again."""

    def __init__(self, data: bytes) -> None:
        found = open_text(data)
        self.asking = Asking(found.rebuild, usual_draws(found.rebuild))
        self.moves = 0

    def once(self, *, compiled: bool) -> None:
        """Move it, there and back over a tenth."""
        equilibrium.COMPILED = compiled
        self.moves += 1
        moved(self.asking, {"cover shim": (30 + self.moves % 10) * 1e-5, "cartridge shim": 0.5e-3})


def sides(ask: Callable[..., None]) -> tuple[str, str, str]:
    """Time one question both ways."""
    runs = timing.in_turn(
        {"arrays": partial(ask, compiled=False), "compiled": partial(ask, compiled=NUMBA)}, ROUNDS
    )
    plain, fast = (f"{runs.median(side):.2f} s" for side in ("arrays", "compiled"))
    return plain, fast, timing.times(runs.ratio("arrays", "compiled"))


def opened(text: str) -> Rebuild:
    """Read a unit."""
    found = open_text(text)
    assert not found.stopped, [finding.message for finding in found.findings]
    return found.rebuild


def compared(rebuild: Rebuild, draws: int) -> tuple[float, float, str]:
    """Time both ways in turn [ms]."""
    runs = timing.in_turn(
        {
            "arrays": partial(answered, rebuild, draws, compiled=False),
            "compiled": partial(answered, rebuild, draws, compiled=NUMBA),
        },
        ROUNDS,
    )
    shown = timing.times(runs.ratio("arrays", "compiled"))
    return runs.median("arrays") * 1e3, runs.median("compiled") * 1e3, shown


def unknowns(rebuild: Rebuild) -> tuple[int, int]:
    """Count the bodies of the only line, and those left when faces in a row are one."""
    put = Fitted({}, COLD, {}, {})
    (line,) = rebuild.lines.values()
    net = lay_on(rebuild, sample(rebuild, NoLuck()), put, line).net
    contacts = (*net.closed, *net.held)
    bodies = {name for c in contacts for name in (c.before, c.after)} - {net.case}
    inside = [name for run in runs(contacts, {net.case, "spindle"}) for name in run.inside]
    return len(bodies), len(bodies) - len(inside)


def main() -> None:
    """Time all and print two tables."""
    rows: list[tuple[str, ...]] = [("unit", "checks", "draws", "arrays", "compiled", "times")]
    for name in UNITS:
        rebuild = opened((TESTS / f"{name}.yaml").read_text(encoding="utf-8"))
        for draws in (SHEET, EDIT):
            plain, fast, shown = compared(rebuild, draws)
            counted = str(len(rebuild.checks))
            stem = name.split("/")[-1]
            rows.append((stem, counted, f"{draws}", f"{plain:.0f} ms", f"{fast:.0f} ms", shown))
    data = demos.text("bevel-box")
    rows.append(("whole sheet of the bevel box", "", "", *sides(partial(sheet, data))))
    rows.append(("its cover shim moved", "", f"{EDIT}", *sides(Edits(data).once)))
    print(timing.machine() + ("" if NUMBA else "; no numba here: 'compiled' is arrays again"))
    print(timing.table(rows))
    rows = [("parts", "bodies", "unknowns", "arrays", "compiled", "times")]
    for stations in STATIONS:
        rebuild = opened(long_line(stations))
        bodies, left = unknowns(rebuild)
        plain, fast, shown = compared(rebuild, SHEET)
        parts = str(len(rebuild.parts))
        rows.append((parts, str(bodies), str(left), f"{plain:.0f} ms", f"{fast:.0f} ms", shown))
    print(f"one float, {SHEET} draws, by the parts of the line")
    print(timing.table(rows))


if __name__ == "__main__":
    main()
