"""Documents as plain data, all that dryfit tells of one, and when two tellings are the same.

Reading order: the `DOCUMENTS`, `data_of` and `text_of`, `tell`, then the comparisons.
"""

from dataclasses import dataclass
from functools import cache
from math import sqrt
from pathlib import Path
from typing import Any

import yaml

from dryfit.app.usecases.opening import open_text
from dryfit.ask.asking import Asking
from dryfit.ask.closing import Closing, close_up
from dryfit.ask.expect import expect
from dryfit.ask.harm import harm
from dryfit.ask.looks import Looks
from dryfit.ask.settings import chance, choose
from dryfit.ask.targets import Target, targets
from dryfit.solve.bodies import BODIES
from dryfit.solve.sizes import metres

ROOT = Path(__file__).resolve().parents[2]
DEMOS = ROOT / "src" / "dryfit" / "app" / "demos"


def gives(path: Path) -> bool:
    """Tell a unit with bearings, nuts or springs; test_units_that_give.py has those."""
    data = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    return any(BODIES[part["kind"]].gives for part in data["parts"].values())


DOCUMENTS = {
    path.stem: path
    for folder in (DEMOS, ROOT / "tests" / "machines")
    for path in sorted(folder.glob("*.yaml"))
    if not gives(path)
}
DRAWS = 20_000

SAME = 2e-13
"""Lengths of about 0.2 m added in another order differ by a few last places: 1e-12 of them [m]."""

FAR = 5 * sqrt(2)
"""Two sets of draws may differ by five standard errors of each; not once in a million is more."""

EDGE = 0.0149
"""Standard error of the 5 % point of 20 000 normal draws, in standard deviations."""

Data = dict[str, Any]


@cache
def _typed(name: str) -> str:
    return DOCUMENTS[name].read_text(encoding="utf-8")


def data_of(name: str) -> Data:
    """Read a document as plain mappings, lists and texts, by a general YAML reader."""
    data: Data = yaml.load(_typed(name), Loader=yaml.BaseLoader)
    return data


def text_of(data: Data) -> str:
    """Write plain data as a document."""
    return yaml.safe_dump(data, sort_keys=False, width=10_000, allow_unicode=True)


def ask(data: Data, count: int = DRAWS) -> Asking:
    """Open a document without any slip in it."""
    opened = open_text(text_of(data))
    assert opened.findings == ()
    return Asking(opened.rebuild, count)


PACKS = {
    "feed-box": {"thrust shim": 0.35e-3},
    "joint-pack": {"joint shim": 0.40e-3},
    "lay-shaft": {"rear washer": 0.121 * 25.4e-3},
    "side-by-side": {"thrust shim": 1.00e-3},
    "two-covers": {"thrust shim": 1.30e-3},
    "worm-inch": {"cap shim": 0.032 * 25.4e-3},
}
"""Packs with which every unit goes together, for settings that do not say what is fitted [m]."""


def packs_in(name: str, asking: Asking) -> dict[str, float]:
    """Say what is in each setting of a document [m]; its parts may be called otherwise there."""
    given = iter(PACKS.get(name, {}).values())
    settings = asking.rebuild.settings.items()
    return {part: metres(s.fitted) if s.fitted else next(given) for part, s in settings}


@dataclass(frozen=True)
class Told:
    """What dryfit tells of one document.

    Attributes
    ----------
    readings
        By check, with the packs in hand: as typed, low, high, by how much too long [m].
    shares
        Chances and shares of draws, with the packs in hand and with others [-].
    advice
        Chances and lengths that hang on what dryfit chose: packs, trials, offsets [m or -].
    spreads
        Standard deviation of what each check truly finds [m].
    """

    readings: dict[str, tuple[float, ...]]
    shares: dict[str, float]
    advice: dict[str, float]
    spreads: dict[str, float]


def tell(name: str, data: Data, count: int = DRAWS) -> Told:
    """Ask everything that is to be told before a unit is closed."""
    asking = ask(data, count)
    packs, wanted = packs_in(name, asking), targets(asking.rebuild)
    expected = expect(asking, wanted, packs, Looks(asking, packs))
    shares = {"chance": chance(asking, wanted, packs), "harm": harm(asking, wanted, packs)}
    return Told(
        {e.check.name: _given(e.typed, e.low, e.high, e.short) for e in expected},
        {
            **shares,
            **{e.check.name: e.within for e in expected if e.within is not None},
            **_tried(asking, wanted, packs),
        },
        _advice(close_up(asking)),
        {e.check.name: float(asking.true(e.check, packs).true.std()) for e in expected},
    )


def _given(*values: float | None) -> tuple[float, ...]:
    return tuple(value for value in values if value is not None)


def _tried(asking: Asking, wanted: tuple[Target, ...], packs: dict[str, float]) -> dict[str, float]:
    """Chance with each pack near the ideal one, setting by setting."""
    choices = [choose(asking, wanted, part, packs) for part in packs]
    return {
        f"{number} tried {n}": likely
        for number, choice in enumerate(choices)
        for n, (_, likely) in enumerate(choice.tried if choice else ())
    }


def _advice(closing: Closing) -> dict[str, float]:
    """Take what hangs on a choice: the first of several routes, the best of several packs."""
    found: dict[str, float | None] = {"chance": closing.chance, "harm": closing.harm}
    for number, one in enumerate(closing.settings):
        found[f"{number} pack"] = one.pack.thickness if one.pack else None
        for route in one.routes:
            found[f"{number} {route.name} chance"] = route.chance
            found[f"{number} {route.name} trial"] = route.trial
            found[f"{number} {route.name} offset"] = route.offset
    return {name: value for name, value in found.items() if value is not None}


def apart(one: dict[str, Any], other: dict[str, Any], within: float) -> dict[str, Any]:
    """List what differs by more than `within`, by name."""
    assert one.keys() == other.keys()
    return {
        name: (one[name], other[name])
        for name in one
        if any(abs(a - b) > within for a, b in zip(_all(one[name]), _all(other[name]), strict=True))
    }


def _all(value: Any) -> tuple[float, ...]:
    return value if isinstance(value, tuple) else (value,)


def same(one: Told, other: Told, within: float = SAME) -> None:
    """Hold two tellings to be the same, draw by draw."""
    assert apart(one.readings, other.readings, within) == {}
    assert apart(one.shares, other.shares, 0.0) == {}
    assert apart(one.advice, other.advice, within) == {}


def same_but_for_luck(one: Told, other: Told) -> None:
    """Hold two tellings from other draws to differ by no more than their standard errors.

    What dryfit chose is left out: of two packs about as good, other draws may choose the other.
    """
    assert apart(_nominal(one), _nominal(other), SAME) == {}
    for name, (_, low, high, _) in one.readings.items():
        slack = FAR * EDGE * max(one.spreads[name], (high - low) / 3.29)
        assert apart({name: (low, high)}, {name: other.readings[name][1:3]}, slack) == {}
    for name, share in one.shares.items():
        error = sqrt(max(share * (1 - share), 1 / DRAWS) / DRAWS)
        assert abs(other.shares[name] - share) <= FAR * error, name


def _nominal(told: Told) -> dict[str, float]:
    return {name: typed for name, (typed, *_) in told.readings.items()}
