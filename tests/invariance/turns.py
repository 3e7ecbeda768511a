"""The same machine written in another way: ends exchanged, in inches, shuffled, renamed, sawn."""

import re
from collections.abc import Callable
from copy import deepcopy
from fractions import Fraction
from random import Random
from typing import Any

from tests.invariance.telling import Data

ENDS = {"first end": "last end", "last end": "first end"}
SIZE = re.compile(r"(?P<first>(\d+ of )?)(?P<size>.*?)(?P<last>( by .*)?)")
NUMBER = re.compile(r"(\d+/\d+|\d*\.?\d+)( (?:thou|in|mm)\b)?")
UNITS = {"mm": Fraction(1), "in": Fraction("25.4"), "thou": Fraction("0.0254")}


def stacks_of(data: Data) -> list[tuple[Data, str]]:
    """List each mapping of stacks with the name of every stack in it."""
    ways = [way for line in data["lines"].values() for way in line.values()]
    return [(way, name) for way in ways for name in way]


def mirrored(data: Data) -> Data:
    """Look at every line from its other end.

    A size between two spots changes its sign, a part's own length does not; a depth with nothing
    held is one held to the first end, and that end is now the last.
    """
    new = deepcopy(data)
    for name, line in data["lines"].items():
        ((way, stacks),) = line.items()
        first, last = way.removeprefix("from ").split(" to ")
        turned = {n: [_other_end(spot) for spot in reversed(s)] for n, s in stacks.items()}
        new["lines"][name] = {f"from {last} to {first}": turned}
        for check in new["checks"].values():
            if check["kind"] == "depth":
                check.setdefault("held", first)
                check |= {key: _other_end(check[key]) for key in ("from", "to")}
    for part in new["parts"].values():
        part |= {k: _lands(part[k]) for k in ("bore", "outside") if isinstance(part.get(k), dict)}
    new["sizes"] = {
        _other_end(key): turned_size(text) if "." in key else text
        for key, text in data["sizes"].items()
    }
    return new


def _lands(lands: Data) -> Data:
    """Exchange the ends that lands name."""
    return {" to ".join(ENDS.get(s, s) for s in k.split(" to ")): v for k, v in lands.items()}


def _other_end(text: str) -> str:
    return re.sub(r"(?<=\.)(first end|last end)", lambda found: ENDS[found[0]], text)


def turned_size(text: str) -> str:
    """Change the sign of a size: `12 + 0.2 - 0.1` becomes `-12 + 0.1 - 0.2`."""
    text = text.removeprefix("-") if text.startswith("-") else f"-{text}"
    return re.sub(r"\+ ?([\d.]+) - ?([\d.]+)", r"+\2 -\1", text)


Change = Callable[[str], str]


def each_size(data: Data, change: Change) -> Data:
    """Rewrite every size, thickness, limit and reading; nothing else."""
    new = deepcopy(data)
    for key, owners in _OWNERS.items():
        for owner in new.get(key, {}).values():
            owner |= {k: _deep(owner[k], change) for k in owners if k in owner}
    for key in ("sizes", "readings", "as found"):
        if key in new:
            new[key] = _deep(new[key], change)
    return new


_OWNERS = {
    "parts": (
        *("free", "nipped", "bore", "outside", "width", "seat", "pocket", "inner width"),
        *("outer width", "set width", "play", "ball", "at", "solid", "set to", "screw circle"),
        *("spigot", "thickness", "shaft"),
    ),
    "meshes": ("module", "face width", "lash", "centre distance"),
    "checks": ("at radius",),
    "instruments": ("limit",),
    "settings": ("made from", "one of", "cut to size", "fitted"),
    "states": ("fitted",),
    "needs": ("want",),
}


def _deep(value: Any, change: Change) -> Any:
    if isinstance(value, str):
        return change(value)
    if isinstance(value, list):
        return [_deep(item, change) for item in value]
    return {key: _deep(item, change) for key, item in value.items()}


def in_other_units(data: Data) -> Data:
    """Write a document in millimetres in inches, and one in inches in millimetres, exactly."""
    old, new = ("mm", "in") if data["sizes in"] == "mm" else ("in", "mm")
    changed = each_size(data, lambda text: _in_units(text, old, new))
    return {**changed, "sizes in": {"mm": "mm", "in": "inch"}[new]}


def _in_units(text: str, old: str, new: str) -> str:
    found = SIZE.fullmatch(text)
    assert found
    unit = next((u for u in UNITS if found["size"].endswith(f" {u}")), old)

    def number(match: re.Match[str]) -> str:
        return _spelled(Fraction(match[1]) * UNITS[unit] / UNITS[new], new)

    return found["first"] + NUMBER.sub(number, found["size"]) + found["last"]


def _spelled(value: Fraction, unit: str) -> str:
    """Spell a number exactly: a fraction of an inch, or a millimetre's whole decimals."""
    if unit == "in":
        return f"{value.numerator}/{value.denominator}"
    assert Fraction(f"{float(value):.12f}") == value
    return f"{float(value):.12f}"


def shuffled(data: Data, seed: int) -> Data:
    """Write parts, sizes, checks and stacks in another order."""
    new, random = deepcopy(data), Random(seed)
    for key in ("parts", "sizes", "checks"):
        new[key] = _in_another_order(new[key], random)
    for line in new["lines"].values():
        for way in line:
            line[way] = _in_another_order(line[way], random)
    return new


def _in_another_order(entries: Data, random: Random) -> Data:
    return dict(random.sample(list(entries.items()), len(entries)))


def renamed(data: Data, old: str, new: str) -> Data:
    """Give a part another name wherever it is named."""

    def name(text: str) -> str:
        return " to ".join(
            new + word.removeprefix(old) if word.split(".")[0] == old else word
            for word in text.split(" to ")
        )

    def keys(entries: Data) -> Data:
        return {name(key): value for key, value in entries.items()}

    done = deepcopy(data)
    for key in ("parts", "sizes", "settings"):
        done[key] = keys(done[key])
    for stacks, stack in stacks_of(done):
        stacks[stack] = [name(spot) for spot in stacks[stack]]
    for state in done.get("states", {}).values():
        state |= {k: keys(state[k]) for k in ("fitted", "warmer than room") if k in state}
        state |= {k: [name(n) for n in state[k]] for k in ("left out",) if k in state}
    for asked in [*done["needs"].values(), *done["checks"].values()]:
        asked |= {k: name(asked[k]) for k in ("of", "at", "from", "to") if k in asked}
    for part in done["parts"].values():
        part |= {k: name(part[k]) for k in _OF_PARTS if k in part}
    for mesh in done.get("meshes", {}).values():
        mesh |= {k: name(mesh[k]) for k in _OF_MESHES if k in mesh}
    for step in done.get("steps", {}).values():
        step |= {k: name(step[k]) for k in ("at", "after", "before") if k in step}
    if "sizes" in done.get("as found", {}):
        done["as found"]["sizes"] = keys(done["as found"]["sizes"])
    return done


_OF_PARTS = ("on", "in", "from", "to", "left shims", "right shims")

_OF_MESHES = (
    *("pinion", "wheel", "centre shims"),
    *(f"{which} {end}" for which in ("pinion", "wheel") for end in ("apex", "crossing")),
)


def whole(data: Data) -> list[str]:
    """List the parts with a length that touch others by their two ends only, within a stack."""
    stacks = [stacks[stack] for stacks, stack in stacks_of(data)]
    inner = {spot for stack in stacks for spot in stack[1:-1] if "." not in spot}
    outer = {end.split(".")[0] for stack in stacks for end in (stack[0], stack[-1])}
    spotted = {spot.split(".")[0] for stack in stacks for spot in stack if "." in spot}
    return [name for name in data["sizes"] if name in inner - outer - spotted]


def sawn(data: Data, part: str) -> Data:
    """Saw a part in two: a third of its length, and the rest; its steps go with the saw."""
    found = re.match(r"[\d./]+", data["sizes"][part])
    assert found
    data = deepcopy(data)
    data["sizes"] = {k: v for k, v in data["sizes"].items() if not k.startswith(f"{part}.")}
    data["parts"][part] = {k: v for k, v in data["parts"][part].items() if isinstance(v, str)}
    length = Fraction(found[0])
    rest = data["sizes"][part][found.end() :]
    done = renamed(data, part, f"{part} b")
    done["parts"][f"{part} a"] = dict(done["parts"][f"{part} b"])
    short = Fraction(round(length * 1000 / 3), 1000)
    done["sizes"][f"{part} a"] = f"{float(short):.6f}"
    done["sizes"][f"{part} b"] = f"{float(length - short):.6f}{rest}"
    for check in done["checks"].values():
        check |= {k: v.replace(f"{part} b.first", f"{part} a.first") for k, v in check.items()}
    for stacks, stack in stacks_of(done):
        stacks[stack] = [
            piece
            for spot in stacks[stack]
            for piece in ([f"{part} a", spot] if spot == f"{part} b" else [spot])
        ]
    for state in done.get("states", {}).values():
        if f"{part} b" in state.get("left out", ()):
            state["left out"].append(f"{part} a")
        warm = state.get("warmer than room", {})
        warm |= {f"{part} a": warm[f"{part} b"]} if f"{part} b" in warm else {}
    return done
