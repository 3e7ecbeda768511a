"""A line pushed along under many forces: how far its shaft goes, and what its rows then carry."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.model.rebuild import FloatNeed, PreloadNeed
from dryfit.solve.benchtop import NotYet
from dryfit.solve.luck import Array, full
from dryfit.solve.predict import laid_for, line_of
from dryfit.solve.preloads import carried


@dataclass(frozen=True, slots=True)
class Pushed:
    """A line under pushes, one value a push.

    Attributes
    ----------
    line, ends
        Name of the line, and of its two ends.
    travel
        How far the shaft has gone from where it rests, towards the last end [m].
    to_last, to_first
        What the rows carry that stop it on its way to the last end and to the first [N].
    stops_last, stops_first
        The bearings whose rows those are.
    """

    line: str
    ends: tuple[str, str]
    travel: Array
    to_last: Array
    to_first: Array
    stops_last: tuple[str, ...]
    stops_first: tuple[str, ...]


def pushed(
    asking: Asking, need: FloatNeed | PreloadNeed, packs: Packs, pushes: Sequence[float]
) -> Pushed | None:
    """Push the shaft that a need names, every size as typed.

    Parameters
    ----------
    asking
        The unit [asking]
    need
        Which shaft, and in which state [need]
    packs
        Thickness of each setting [m]
    pushes
        Forces towards the last end of its line [N]

    Returns
    -------
    pushed
        None where nothing gives, no row stops it on one of its ways, or a size of its line is
        not known [pushed]

    Raises
    ------
    NoAnswer
        Nothing stops the shaft, or a size is far out.

    Valid
    -----
    Any line.

    Source
    ------
    `solve.preloads.carried`: statics.

    Examples
    --------
    See tests/ask/test_pushed.py.

    A unit in which nothing gives has no force against travel:

    >>> from dryfit.model.rebuild import Rebuild
    >>> need = FloatNeed("float", "float", of="shaft")
    >>> pushed(Asking(Rebuild("mm")), need, {}, [50.0]) is None
    True
    """
    side = asking.side_by_side(1 + len(pushes))
    thick = {part: full(side.draws, float(t)) for part, t in asking.with_fitted(packs).items()}
    try:
        bench = laid_for(asking.rebuild, need, side, packs=thick, assumed=asking.assumed)
    except NotYet:
        return None
    if not bench.net.gives or bench.lacking:
        return None
    held = bench.at_rest({need.of: np.array([0.0, *pushes])}, bench.at_rest({}))
    place, rows = held.place(need.of), carried(bench, held)
    forces = {row.bearing: full(side.draws, 0.0) for row in rows}
    ways: tuple[dict[str, Array], dict[str, Array]] = ({**forces}, {**forces})
    for row in rows:
        for found, force in zip(ways, (-row.force, row.force), strict=True):
            found[row.bearing] = found[row.bearing] + np.maximum(force, 0.0)
    carries = [{name: force for name, force in way.items() if force.any()} for way in ways]
    if not all(carries):
        return None
    line = line_of(asking.rebuild, need)
    loads = [np.sum([*way.values()], axis=0)[1:] for way in carries]
    names = [tuple(way) for way in carries]
    return Pushed(line.name, (line.first, line.last), (place - place[0])[1:], *loads, *names)
