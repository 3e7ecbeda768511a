"""Where the spots of each body of a line lie along it, in a state."""

from collections.abc import Mapping
from dataclasses import replace

from dryfit.model.parts import Bearing, SpringWasher
from dryfit.model.rebuild import FIRST_END, LAST_END, Between, Line, Rebuild
from dryfit.model.spots import Spot
from dryfit.solve.luck import Array, full
from dryfit.solve.rings import INNER, owner, ring
from dryfit.solve.rows import Rings, rings, typed
from dryfit.solve.sample import Sample
from dryfit.solve.spots import Layout, lay_out
from dryfit.solve.states import Fitted


def placed(
    rebuild: Rebuild,
    line: Line,
    body: str,
    sample: Sample,
    fitted: Fitted,
    seats: Mapping[str, str],
) -> Layout:
    """Place the spots of a body, warm as it is; a pack or a gasket is as thick as told.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    line
        One of its lines [line]
    body
        A part, or a ring of a bearing [text]
    sample
        True sizes [m], shape (n,) each
    fitted
        Packs, state and what is assumed [fitted]
    seats
        What each ring sits on or in, and so is as warm as [text]

    Returns
    -------
    layout
        Where its spots lie along it [m]

    Valid
    -----
    Bodies of the line.

    Source
    ------
    As `solve.spots.lay_out`.

    Examples
    --------
    See tests/solve/test_network.py.

    >>> _reached([], {"shoulder"})
    []
    """
    layout = _cold(rebuild, line, body, sample, fitted)
    factor = fitted.now.growth.get(seats.get(body, body))
    if factor is None:
        return layout
    return replace(layout, offsets={n: x * factor for n, x in layout.offsets.items()})


def _cold(rebuild: Rebuild, line: Line, body: str, sample: Sample, fitted: Fitted) -> Layout:
    part = rebuild.parts[owner(body)]
    thick = {**sample.nipped, **fitted.packs}
    if body in thick:
        return _between_ends(sample, thick[body])
    if isinstance(part, Bearing):
        own = kept_rings(rebuild, part, sample)
        width = own.inner if body == ring(part.name, INNER) else own.outer
        return _between_ends(sample, width, own.lacking)
    if isinstance(part, SpringWasher):
        free = typed(rebuild, sample.draws, part, "free")
        lacking = frozenset({f"{body}.free"}) if free is None else frozenset()
        return _between_ends(sample, full(sample.draws, 0.0) if free is None else free, lacking)
    assumed = fitted.assumed
    kept = (body, line.name, tuple(sorted(assumed.items())))
    if kept not in sample.layouts:
        sample.layouts[kept] = _worked_out(rebuild, line, body, sample, assumed)
    return sample.layouts[kept]


def _between_ends(sample: Sample, length: Array, lacking: frozenset[str] = frozenset()) -> Layout:
    return Layout({FIRST_END: full(sample.draws, 0.0), LAST_END: length}, (), lacking)


def kept_rings(rebuild: Rebuild, part: Bearing, sample: Sample) -> Rings:
    """Draw the axial sizes of a bearing, once for each sample.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    part
        The bearing [part]
    sample
        Where it is kept [sample]

    Returns
    -------
    rings
        As `solve.rows.rings` [m]

    Valid
    -----
    Any bearing.

    Source
    ------
    As `solve.rows.rings`.

    Examples
    --------
    >>> from dryfit.solve.luck import NoLuck
    >>> from dryfit.solve.sample import sample
    >>> bearing = Bearing("front", "deep groove ball")
    >>> kept_rings(Rebuild("mm"), bearing, sample(Rebuild("mm"), NoLuck())).set_width is None
    True
    """
    return sample.kept(("rings", part.name), lambda: rings(rebuild, part, sample.draws))


def _worked_out(
    rebuild: Rebuild, line: Line, part: str, sample: Sample, assumed: Mapping[str, float]
) -> Layout:
    """Place the spots of one part along a line from its sizes, those of other lines left out."""
    used = {
        spot.name
        for stack in line.stacks
        for spot in [*stack.spots, *_named_in(rebuild, line)]
        if spot.part == part
    }
    own = [between for between in rebuild.sizes.values() if between.start.part == part]
    here = own if len(rebuild.lines) == 1 else _reached(own, used)
    return lay_out(
        part,
        here,
        used=used,
        values={b.key: sample.sizes[b.key] for b in here if b.key in sample.sizes},
        doubts=sample.doubts,
        draws=sample.draws,
        assumed=assumed,
    )


def _named_in(rebuild: Rebuild, line: Line) -> list[Spot]:
    """List the spots that meshes name along a line, beside those of its stacks."""
    parts = {spot.part for stack in line.stacks for spot in stack.spots}
    found: list[Spot] = []
    for mesh in rebuild.meshes.values():
        for which in ("pinion", "wheel"):
            if getattr(mesh, which) in parts:
                named = (getattr(mesh, f"{which}_{end}", None) for end in ("apex", "crossing"))
                found += [spot for spot in named if spot]
    return found


def _reached(sizes: list[Between], used: set[str]) -> list[Between]:
    """Keep the sizes that some spot of the line leads to."""
    near = set(used)
    for _ in sizes:
        near |= {
            end.name for b in sizes if near & {b.start.name, b.end.name} for end in (b.start, b.end)
        }
    return [b for b in sizes if b.start.name in near]
