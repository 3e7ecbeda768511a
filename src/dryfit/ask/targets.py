"""What is wanted of the finished unit: as the rebuild says, else offered by what it is used for.

Without a use nothing is offered.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np

from dryfit.ask.uses import BINDS, KNOCKS, USES, Asked, Layout, Row, Use
from dryfit.model.meshes import Mesh
from dryfit.model.parts import AngularContactBall, Bearing, SpringWasher, TaperRoller
from dryfit.model.rebuild import NEED_KINDS, FloatNeed, LashNeed, Line, Need, PreloadNeed, Rebuild
from dryfit.quantities import PreloadRange, Size
from dryfit.solve.bodies import BODIES
from dryfit.solve.luck import Array, Flags
from dryfit.solve.predict import line_of
from dryfit.solve.recommended import preload_limits, preload_word, table_lash
from dryfit.solve.sizes import metres

YOURS = "as you wrote"

TIGHT_TEETH = "teeth may bottom when warm, and the mesh whines and runs hot"
LOOSE_TEETH = "it rattles, and lost motion is felt at the output"

AGMA = "AGMA table for new gears, as reprinted"


@dataclass(frozen=True, slots=True)
class Target:
    """What is wanted of one need.

    Attributes
    ----------
    need
        The need.
    low, high
        Limits of its true value, in its own unit [m], [N], or share of rating [-]; None for an
        open side.
    source
        Where they come from.
    less, more
        What happens beyond each.
    """

    need: Need
    low: float | None
    high: float | None
    source: str
    less: str = BINDS
    more: str = KNOCKS

    @property
    def aim(self) -> float:
        """The value to aim at: the middle, or a little inside an open range."""
        if self.low is not None and self.high is not None:
            return (self.low + self.high) / 2
        if self.low is not None:
            return self.low + _inside(self.need, self.low)
        high = self.high or 0.0
        return max(high - _inside(self.need, high), high / 2)

    def holds(self, true: Array) -> Flags:
        """Tell for each draw whether its true value is within."""
        low = -np.inf if self.low is None else self.low
        high = np.inf if self.high is None else self.high
        found: Flags = (true >= low) & (true <= high)
        return found


OPEN_SIDE = 0.05e-3
"""How far inside a length with one limit to aim [m]: estimate."""


def _inside(need: Need, limit: float) -> float:
    """Say how far inside an open range to aim: half as much again for what is no length."""
    return limit / 2 if isinstance(need, PreloadNeed) else OPEN_SIDE


def targets(rebuild: Rebuild) -> tuple[Target, ...]:
    """List what is wanted: the rebuild's own needs, else what is offered for each shaft and mesh.

    Parameters
    ----------
    rebuild
        The unit [rebuild]

    Returns
    -------
    targets
        One for each need that has limits [targets]

    Valid
    -----
    Any rebuild; nothing is offered without `used for`.

    Source
    ------
    `uses` for what is offered.

    Examples
    --------
    >>> targets(Rebuild("mm"))
    ()
    """
    if rebuild.needs:
        found = [_target(rebuild, need) for need in rebuild.needs.values()]
        return tuple(target for target in found if target is not None)
    use = use_of(rebuild)
    return (*_for_shafts(rebuild, use), *_for_meshes(rebuild, use)) if use else ()


def use_of(rebuild: Rebuild) -> Use | None:
    """Find what the unit is used for among `USES`.

    Parameters
    ----------
    rebuild
        The unit [rebuild]

    Returns
    -------
    use
        None where it is not told, or not known here [use]

    Valid
    -----
    Any rebuild.

    Source
    ------
    None needed.

    Examples
    --------
    >>> use_of(Rebuild("mm")) is None
    True
    """
    use = rebuild.used_for
    return USES.get(use.kind) if use and use.kind else None


def offered(rebuild: Rebuild, need: Need) -> Target | None:
    """Offer limits for a need that has none.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    need
        The need [need]

    Returns
    -------
    target
        None where nothing is offered for its kind, use and layout [target]

    Valid
    -----
    Any need.

    Source
    ------
    `uses`, tables of `solve.recommended`.

    Examples
    --------
    >>> offered(Rebuild("mm"), FloatNeed("float", "float", of="shaft")) is None
    True
    """
    use = use_of(rebuild)
    if use is None:
        return None
    if isinstance(need, LashNeed):
        mesh = rebuild.meshes.get(need.mesh)
        return _lash(need, mesh, use) if mesh else None
    row = _row(use, rebuild, line_of(rebuild, need))
    return _from_row(need, row) if row and type(need) is NEED_KINDS[row.kind] else None


def layout_of(rebuild: Rebuild, line: Line) -> Layout:
    """Tell how a shaft is held along its line, by the bearings and springs that lie there.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    line
        Its line [line]

    Returns
    -------
    layout
        A spring counts first, then matched bearings, then what is set against each other [layout]

    Valid
    -----
    Any line.

    Source
    ------
    None needed.

    Examples
    --------
    >>> layout_of(Rebuild("mm"), Line("spindle", "nose", "tail", ()))
    <Layout.PLAIN: 'between plain faces'>
    """
    here: list[Any] = [rebuild.parts[n] for n in _parts(line) if n in rebuild.parts]
    if any(isinstance(part, SpringWasher) for part in here):
        return Layout.SPRUNG
    if any(getattr(part, "ground_for", None) for part in here):
        return Layout.MATCHED
    if sum(isinstance(part, TaperRoller) for part in here) > 1:
        return Layout.TAPERS
    if sum(isinstance(part, AngularContactBall) for part in here) > 1:
        return Layout.ANGULAR
    return Layout.FIXED if any(isinstance(part, Bearing) for part in here) else Layout.PLAIN


def _parts(line: Line) -> dict[str, None]:
    return dict.fromkeys(spot.part for stack in line.stacks for spot in stack.spots)


def _for_shafts(rebuild: Rebuild, use: Use) -> Iterator[Target]:
    """Offer what is wanted of each shaft and cluster that lies in a line."""
    for line in rebuild.lines.values():
        row = _row(use, rebuild, line)
        for name in _parts(line):
            if row and name in rebuild.parts and BODIES[rebuild.parts[name].kind].floats:
                yield _from_row(_need(name, row), row)


def _row(use: Use, rebuild: Rebuild, line: Line) -> Row | None:
    """Find the row for a line; its largest bore counts."""
    here = [rebuild.parts[name] for name in _parts(line) if name in rebuild.parts]
    bores = [part.bore for part in here if isinstance(part, Bearing)]
    bore = max((metres(b) for b in bores if isinstance(b, Size)), default=0.0)
    made = use.rows.get(layout_of(rebuild, line))
    return made(Asked(bore)) if made else None


def _need(part: str, row: Row) -> Need:
    """Make the need that a row is for."""
    name, sort = f"{part} {row.kind}", NEED_KINDS[row.kind]
    if issubclass(sort, PreloadNeed):
        words = row.high is not None and row.high < 1
        want = PreloadRange("", ("none", "heavy")) if words else PreloadRange("", None, row.low)
        return PreloadNeed(name, "preload", of=part, want=want)
    return FloatNeed(name, row.kind, of=part)


def _from_row(need: Need, row: Row) -> Target:
    return Target(need, row.low, row.high, row.source, row.less, row.more)


def _for_meshes(rebuild: Rebuild, use: Use) -> Iterator[Target]:
    """Offer a lash for each mesh of new gears whose table is known."""
    for name, mesh in rebuild.meshes.items():
        need = LashNeed(f"{name} lash", "lash", mesh=name, pinion="away", wheel="away")
        found = _lash(need, mesh, use)
        if found:
            yield found


def _lash(need: LashNeed, mesh: Mesh, use: Use) -> Target | None:
    """Offer the lash of a table where the use names its quality."""
    band = table_lash(mesh, use.bevels) if use.bevels else None
    return Target(need, *band, AGMA, TIGHT_TEETH, LOOSE_TEETH) if band else None


def _target(rebuild: Rebuild, need: Any) -> Target | None:
    """Take the limits a need states, else those offered; never any without a use."""
    usual = offered(rebuild, need)
    if need.want is None:
        return usual
    less, more = (usual.less, usual.more) if usual else BEYOND[need.kind]
    low, high = need.want.low, need.want.high
    if isinstance(need, PreloadNeed):
        if need.want.classes:
            low, high = preload_limits(*need.want.classes)
    else:
        low, high = (None if limit is None else float(limit / 1000) for limit in (low, high))
    return Target(need, low, high, YOURS, less, more)


def travel(need: Need) -> Need:
    """Give the need whose value follows a pack evenly, rows pressed or not: float, or lash.

    Parameters
    ----------
    need
        The need [need]

    Returns
    -------
    travel
        Its float, or itself [need]

    Valid
    -----
    Any need.

    Source
    ------
    None needed.

    Examples
    --------
    >>> travel(PreloadNeed("preload", "preload", of="spindle")).kind
    'float'
    """
    if isinstance(need, FloatNeed | PreloadNeed):
        return FloatNeed(need.name, "float", need.state, of=need.of)
    return need


def in_words(target: Target) -> str:
    """Say in words which preload is wanted.

    Parameters
    ----------
    target
        What is wanted [target]

    Returns
    -------
    words
        `light to medium`; nothing where it is wanted in newtons [text]

    Valid
    -----
    Any target.

    Source
    ------
    `solve.recommended`.

    Examples
    --------
    >>> need = PreloadNeed("p", "preload", of="spindle", want=PreloadRange("", ("none", "light")))
    >>> in_words(Target(need, None, 0.036, YOURS))
    'none to light'
    """
    need = target.need
    if not isinstance(need, PreloadNeed) or need.want is None or need.want.classes is None:
        return ""
    first = preload_word(target.low * 1.000001) if target.low else "none"
    last = preload_word(target.high) if target.high else ""
    return first if first == last else f"{first} to {last}"


def named(need: Need) -> str:
    """Name the part or mesh that a need is of.

    Parameters
    ----------
    need
        The need [need]

    Returns
    -------
    name
        Its part or mesh [text]

    Valid
    -----
    Any need.

    Source
    ------
    None needed.

    Examples
    --------
    >>> named(LashNeed("lash", "lash", mesh="bevels"))
    'bevels'
    """
    return str(getattr(need, "of", None) or getattr(need, "mesh", ""))


BEYOND: dict[str, tuple[str, str]] = {
    "float": (BINDS, KNOCKS),
    "nip": ("rows lose touch under load, and it chatters", "it runs hot, and the rows wear"),
    "preload": ("rows lose touch under load, and it chatters", "it runs hot, and the rows wear"),
    "lash": (TIGHT_TEETH, LOOSE_TEETH),
}
"""What lies beyond either side, where the use says nothing of it."""
