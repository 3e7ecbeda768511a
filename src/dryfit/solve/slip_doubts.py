"""Sizes that are far out: one typed in the other unit, a float or lash no built unit has."""

from collections.abc import Iterator
from math import pi

import numpy as np

from dryfit.model.mesh_rules import MEMBERS
from dryfit.model.meshes import Mesh
from dryfit.model.parts import SpringWasher
from dryfit.model.rebuild import Backlash, Line, Rebuild
from dryfit.quantities import Finding, Size
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.bodies import BODIES
from dryfit.solve.luck import NoLuck, full
from dryfit.solve.network import network
from dryfit.solve.predict import predict
from dryfit.solve.rigid import room
from dryfit.solve.sample import Sample, sample
from dryfit.solve.sizes import metres
from dryfit.solve.spelled import spelled
from dryfit.solve.states import COLD, Fitted

INCH = 25.4

ODD = 1e-3
"""A float further from nothing than this is looked at for a size in the other unit [m]."""

MENDED = 0.3e-3
"""A size that would bring the float so near to nothing is named [m]."""

LONG, OVER = 5e-3, 1e-3
"""No shaft is built with so much float, or so much too long for its room [m]: estimates."""

SLIP = "look for a size or pack that is misread, in the other unit, or with a wrong sign"


def slip_doubts(rebuild: Rebuild) -> tuple[Finding, ...]:
    """Find sizes that are far out; all of it notes.

    Parameters
    ----------
    rebuild
        A unit that keeps the rules of `model.rules` [rebuild]

    Returns
    -------
    findings
        All of them, with their places [findings]

    Valid
    -----
    References that hold, known threads; see `line_doubts`.

    Source
    ------
    1 in = 25.4 mm exactly: NIST SP 811, Appendix B, from memory. Limits are estimates.

    Examples
    --------
    >>> slip_doubts(Rebuild("mm"))
    ()
    """
    drawn = sample(rebuild, NoLuck())
    told: dict[tuple[object, ...], Finding] = {}
    for line in rebuild.lines.values():
        for finding in _line(rebuild, line, drawn):
            told.setdefault((finding.code, finding.place), finding)
    return (*told.values(), *_apart(rebuild, drawn))


def _packs(rebuild: Rebuild, drawn: Sample) -> Fitted:
    fitted = {name: setting.fitted for name, setting in rebuild.settings.items()}
    packs = {name: full(drawn.draws, metres(s) if s else 0.0) for name, s in fitted.items()}
    return Fitted(packs, COLD, {}, {})


def _line(rebuild: Rebuild, line: Line, drawn: Sample) -> Iterator[Finding]:
    """Look at the float of each shaft of a line, with all packs known."""
    here = dict.fromkeys(spot.part for stack in line.stacks for spot in stack.spots)
    if any(rebuild.settings[name].fitted is None for name in here if name in rebuild.settings):
        return
    sprung = any(isinstance(rebuild.parts[name], SpringWasher) for name in here)
    for name in here:
        if not BODIES[rebuild.parts[name].kind].floats:
            continue
        left = _float(rebuild, line, drawn, name)
        if left is None or abs(left) < ODD or (sprung and left < 0):
            continue  # a spring gives up its height; one that is solid is told by itself
        mended = [*_mended(rebuild, line, drawn, (name, left))]
        yield from mended
        if not mended and (left > LONG or left < -OVER):
            yield _long(rebuild, line, name, left)


def _long(rebuild: Rebuild, line: Line, name: str, left: float) -> Finding:
    said = f"leave '{name}' {spelled(left, rebuild)} of float, more than any shaft is built with"
    over = f"make the parts of '{line.name}' {spelled(-left, rebuild)} too long for their room"
    return Finding(
        "line.long float" if left > 0 else "line.too long",
        ("lines", line.name),
        f"the sizes {said if left > 0 else over}",
        SLIP,
        "note",
    )


def _float(rebuild: Rebuild, line: Line, drawn: Sample, name: str) -> float | None:
    """Work out the float of a rigid shaft; None where it is open or a size is not known."""
    net = network(rebuild, line, drawn, _packs(rebuild, drawn))
    if name not in net.layouts or any(layout.lacking for layout in net.layouts.values()):
        return None
    left = room(net.closed, name, net.case)
    return None if left is None else float(np.mean(left))


def _mended(
    rebuild: Rebuild, line: Line, drawn: Sample, one: tuple[str, float]
) -> Iterator[Finding]:
    """Name each size that, read in the other unit, would make the float a usual one."""
    name, left = one
    here = {spot.part for stack in line.stacks for spot in stack.spots}
    factor, other = (INCH, "in") if rebuild.system == "mm" else (1 / INCH, "mm")
    for key, between in rebuild.sizes.items():
        typed = between.size
        if key not in drawn.sizes or between.start.part not in here or not isinstance(typed, Size):
            continue
        if any(letter.isalpha() for letter in typed.text.split(" by ")[0]):
            continue  # its unit is written
        there = drawn.with_size(rebuild, key, drawn.sizes[key] * factor)
        then = _float(rebuild, line, there, name)
        if then is not None and abs(then) < MENDED:
            figure = typed.text.split(" ")[0]
            yield Finding(
                "size.other unit",
                ("sizes", key),
                f"with {figure} for '{key}', {_amount(rebuild, line, name, left)}; were it "
                f"{figure} {other}, it would come right",
                f"if it was read so, write {figure} {other}; else look for another slip",
                "note",
            )


def _amount(rebuild: Rebuild, line: Line, name: str, left: float) -> str:
    if left > 0:
        return f"'{name}' has {spelled(left, rebuild)} of float"
    return f"the parts of '{line.name}' are {spelled(-left, rebuild)} too long for their room"


def _apart(rebuild: Rebuild, drawn: Sample) -> Iterator[Finding]:
    """Tell gears whose lash is more than half a pitch: their teeth do not reach each other."""
    packs = _packs(rebuild, drawn).packs
    if any(setting.fitted is None for setting in rebuild.settings.values()):
        return
    for name, check in rebuild.checks.items():
        mesh = rebuild.meshes.get(getattr(check, "mesh", ""))
        if not isinstance(check, Backlash) or mesh is None or not isinstance(mesh.module, Size):
            continue
        try:
            found = predict(rebuild, check, drawn, packs=packs)
        except NoAnswer:
            continue  # told by what cannot be read
        half = pi / 2 * metres(mesh.module)
        lash = float(found.shown[0]) / _lever(check, mesh)
        if not found.lacking and lash > half:
            yield Finding(
                "mesh.apart",
                ("checks", name),
                f"'{mesh.name}' would have {spelled(lash, rebuild)} of lash at its teeth, more "
                f"than half a pitch ({spelled(half, rebuild)}): they do not reach each other",
                SLIP,
                "note",
            )


def _lever(check: Backlash, mesh: Mesh) -> float:
    """Say how many times further out than its teeth a gear is read, at least once."""
    teeth = mesh.pinion_teeth if check.on == MEMBERS[0] else mesh.wheel_teeth
    if not isinstance(check.at_radius, Size) or not isinstance(mesh.module, Size) or not teeth:
        return 1.0
    return max(metres(check.at_radius) / (metres(mesh.module) * teeth / 2), 1.0)
