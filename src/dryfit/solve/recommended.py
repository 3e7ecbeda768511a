"""What tables recommend for a mesh, and words for a preload, as the layers above ask for them."""

from math import isnan, radians

import numpy as np

from dryfit.mechanics.lash import arc_of_normal
from dryfit.mechanics.preload import PRELOAD_CLASSES, preload_class
from dryfit.mechanics.recommended_lash import bevel_lash_band, cylindrical_lash_band
from dryfit.model.meshes import BevelMesh, HelicalMesh, Mesh, SpurMesh
from dryfit.quantities import Size
from dryfit.solve.sizes import metres

PRESSURE = radians(20.0)
"""Where none is told [rad]."""


def table_lash(mesh: Mesh, quality: str) -> tuple[float, float] | None:
    """Give the lash that a table recommends for new gears, as the arc where the teeth touch.

    Parameters
    ----------
    mesh
        The mesh [mesh]
    quality
        Of bevels: `accurate` or `commercial` [text]

    Returns
    -------
    low, high
        None where no table holds, or a size is not known [m], [m]

    Valid
    -----
    Bevel, spur and helical gears of metal.

    Source
    ------
    [AGMA-BEVEL], [AGMA-COARSE].

    Examples
    --------
    >>> table_lash(Mesh("worm", "worm"), "accurate") is None
    True
    """
    if not isinstance(mesh.module, Size):
        return None
    module, lean = metres(mesh.module), 0.0
    pressure = mesh.pressure_angle.si if mesh.pressure_angle else PRESSURE
    if isinstance(mesh, BevelMesh):
        band = bevel_lash_band(module, quality)
    elif isinstance(mesh, SpurMesh | HelicalMesh) and isinstance(mesh.centre_distance, Size):
        band = cylindrical_lash_band(module, metres(mesh.centre_distance))
        lean = mesh.helix_angle.si if isinstance(mesh, HelicalMesh) and mesh.helix_angle else 0.0
    else:
        return None
    low, high = (float(arc_of_normal(x, pressure, lean)) for x in band)
    return None if isnan(low) else (low, high)


def preload_limits(first: str, last: str) -> tuple[float | None, float]:
    """Give the limits of preload words as shares of rating.

    Parameters
    ----------
    first, last
        Lightest and heaviest word that will do [text]

    Returns
    -------
    low, high
        No low limit where none at all will do [-]

    Valid
    -----
    Words of `PRELOAD_CLASSES`.

    Source
    ------
    As `mechanics.preload`.

    Examples
    --------
    >>> preload_limits("none", "light")[0] is None
    True
    """
    names = [one.name for one in PRELOAD_CLASSES]
    at = names.index(first)
    return PRELOAD_CLASSES[at - 1].up_to if at else None, PRELOAD_CLASSES[names.index(last)].up_to


def preload_word(share: float) -> str:
    """Say in a word how heavy a preload is.

    Parameters
    ----------
    share
        Of rating [-]

    Returns
    -------
    word
        As `mechanics.preload` [text]

    Valid
    -----
    Any share that is known.

    Source
    ------
    As `mechanics.preload`.

    Examples
    --------
    >>> preload_word(0.02), preload_word(1.0)
    ('light', 'harmful')
    """
    return preload_class(float(np.clip(share, 0.0, 1.0)))
