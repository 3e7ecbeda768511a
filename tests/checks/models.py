"""What the published examples calculate, in their own formulas, on draws of dryfit's own sampler.

`MODELS` has one entry for each sort of example; a case in a *.toml of this folder names it and
gives its inputs. A model that is a whole document is written as text and asked as a user would.
"""

from collections.abc import Callable
from math import pi
from typing import Any

import numpy as np

from dryfit.app.usecases.opening import open_text
from dryfit.ask.asking import Asking
from dryfit.mechanics.instruments import INSTRUMENTS, limit_at
from dryfit.mechanics.thermal import length_change
from dryfit.solve.luck import Array, Luck, as_array, full

DRAWS = 200_000

Input = dict[str, Any]
"""One input: its `value`, with `normal` a deviation, `flat` or `arcsine` a half width."""

Inputs = dict[str, Input]


def drawn(case: str, inputs: Inputs) -> dict[str, Array]:
    """Draw every input of a case from its distribution."""
    return {name: _drawn(("checks", case, name), given) for name, given in inputs.items()}


def _drawn(key: tuple[str, ...], given: Input) -> Array:
    luck = Luck(DRAWS)
    values = full(luck, given.get("value", 0.0))
    if "normal" in given:
        values = values + given["normal"] * luck.normal(*key)
    if "flat" in given:
        values = values + given["flat"] * luck.flat(*key, "flat")
    if "arcsine" in given:
        values = values + given["arcsine"] * np.sin(pi * luck.flat(*key, "phase"))
    return values


def _sum(case: str, inputs: Inputs) -> Array:
    """Add all inputs up."""
    return as_array(sum(drawn(case, inputs).values()))


def _copies(case: str, inputs: Inputs) -> Array:
    """Add up `count` quantities like the one given."""
    each, count = inputs["each"], int(inputs["count"]["value"])
    return _sum(case, {f"each {number}": each for number in range(count)})


def _end_gauge(case: str, inputs: Inputs) -> Array:
    """Length of an end gauge compared with a standard, both not quite at 20 C [nm]."""
    x = drawn(case, inputs)
    warm = x["delta alpha"] * x["theta"] + x["alpha s"] * x["delta theta"]
    return x["l s"] + x["d"] - x["l s"] * warm


def _mass(case: str, inputs: Inputs) -> Array:
    """Conventional mass of a weight less 100 g, from a weighing in air [mg]."""
    x = drawn(case, inputs)
    lift = (x["rho a"] - 1.2) * (1 / x["rho w"] - 1 / x["rho r"])
    return (x["m r"] + x["delta m"]) * (1 + lift) - 100_000


def _comparison_loss(case: str, inputs: Inputs) -> Array:
    """Loss of power at a junction from both parts of a reflection, in millionths."""
    x = drawn(case, inputs)
    return (x["x1"] ** 2 + x["x2"] ** 2) * 1e6


def _clutch(case: str, inputs: Inputs) -> Array:
    """Contact angle of a roller clutch [degree]."""
    x = drawn(case, inputs)
    return np.degrees(np.arccos((x["hub"] + x["roller"]) / (x["cage"] - x["roller"])))


CHAIN = """
dryfit: 1
sizes in: inch
title: Three parts in a room
measured with: micrometer
instruments:
{instruments}
lines:
  block:
    from left to right:
      row: [room.left, b, c, d, room.right]
parts:
  room: {{kind: housing}}
  b: {{kind: spacer}}
  c: {{kind: spacer}}
  d: {{kind: shaft}}
sizes:
  room.left to room.right: {a}
  b: {b}
  c: {c}
  d: {d}
needs:
  gap: {{kind: float, of: d}}
"""


def _float_of(text: str) -> Array:
    """True float of a document that says all [in]."""
    opened = open_text(text)
    assert not opened.stopped
    asking = Asking(opened.rebuild, DRAWS)
    return asking.true(opened.rebuild.needs["gap"], {}).true / 0.0254


def _chain_normal(_: str, inputs: Inputs) -> Array:
    """Type each tolerance, three deviations in the book, as the two that `+/-` means."""
    sizes = {
        name: f"{given['value']:.4f} +/- {given['tolerance'] * 2 / 3:.9f}"
        for name, given in inputs.items()
    }
    return _float_of(CHAIN.format(instruments="  unused: {like: feelers}", **sizes))


def _chain_flat(_: str, inputs: Inputs) -> Array:
    """Give each size an instrument of its own with the tolerance as its limit.

    Like feelers, for only these share no part of their limit: all errors are independent.
    """
    own = "\n".join(
        f"  gauge {name}: {{like: feelers, limit: {given['tolerance']}}}"
        for name, given in inputs.items()
    )
    sizes = {name: f"{given['value']:.4f} by gauge {name}" for name, given in inputs.items()}
    return _float_of(CHAIN.format(instruments=own, **sizes))


def _held_rod(_: str, inputs: Inputs) -> Array:
    """Stress in a warm rod between walls that yield, from the growth they keep back [MPa]."""
    x = {name: given["value"] for name, given in inputs.items()}
    kept = length_change(x["length"], x["expansion"], x["rise"]) - x["yield"]
    return as_array([kept / x["length"] * x["modulus"] / 1e6])


def _three_rods(_: str, inputs: Inputs) -> Array:
    """Stress in two like rods and a third between them that carry one rigid weight [psi].

    The outer pair and the middle one grow as much, warmth and load together; `of` is 1 for the
    outer ones and 2 for the middle one.
    """
    x = {name: given["value"] for name, given in inputs.items()}
    growth = {
        rod: length_change(x[f"{rod} length"], x[f"{rod} expansion"], x["rise"])
        for rod in ("outer", "middle")
    }
    give = {rod: x[f"{rod} length"] / (x[f"{rod} area"] * x[f"{rod} modulus"]) for rod in growth}
    apart = growth["middle"] - growth["outer"]
    pull = (apart + give["middle"] * x["weight"]) / (give["outer"] + 2 * give["middle"])
    return as_array([pull / x["outer area"], (x["weight"] - 2 * pull) / x["middle area"]])


def _growth(_: str, inputs: Inputs) -> Array:
    """Growth of a warm length [um]."""
    x = {name: given["value"] for name, given in inputs.items()}
    return as_array([length_change(x["length"], x["expansion"], x["rise"]) * 1e6])


def _limit(_: str, inputs: Inputs) -> Array:
    """Limit of an instrument at a length [um]."""
    metres = inputs["length"]["value"] / 1e3
    limit = limit_at(INSTRUMENTS[inputs["instrument"]["value"]], metres)
    less = inputs.get("less", {}).get("value")
    return as_array([(limit - (limit_at(INSTRUMENTS[less], metres) if less else 0.0)) * 1e6])


MODELS: dict[str, Callable[[str, Inputs], Array]] = {
    "sum": _sum,
    "copies": _copies,
    "end gauge": _end_gauge,
    "mass": _mass,
    "comparison loss": _comparison_loss,
    "clutch": _clutch,
    "chain, typed tolerances": _chain_normal,
    "chain, instrument limits": _chain_flat,
    "held rod": _held_rod,
    "three rods": _three_rods,
    "growth": _growth,
    "limit": _limit,
}
