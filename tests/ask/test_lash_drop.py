"""A lash that halves when the cover is tightened: free play, never elasticity.

Common practice, no source: at the outer rim of a bevel 23 thou may be read before the cap of its
angular contact pair is tightened and 10 to 12 after, the same at two places. That is a drop of
about 0.3 mm. Mitre gears: an axial travel t of one member takes 2 t tan(alpha) sin(45 deg) of lash.
"""

import numpy as np
import pytest
from tests.ask.test_together import box

from dryfit.ask.asking import Asking
from dryfit.ask.slopes import pack_slope
from dryfit.ask.targets import targets
from dryfit.ask.together import ideals

DROP = (23 - 11) * 25.4e-6
"""From 23 thou to the middle of 10 and 12 [m]: 0.305 mm."""

MITRE = (
    ("pinion teeth: 20, wheel teeth: 30", "pinion teeth: 30, wheel teeth: 30"),
    ("at radius: 60, pinion: away, wheel: away}", "pinion: away, wheel: away}"),
)
FLATTER = ("module: 4, face width: 22", "module: 4, pressure angle: 14.5 deg, face width: 22")


def mitre(*words: tuple[str, str]) -> tuple[Asking, dict[str, float]]:
    """Open the box with mitre gears, and packs with which its rows just touch."""
    asking = box(*MITRE, *words)
    (nip,) = (t for t in targets(asking.rebuild) if t.need.name == "wheel nip")
    touching = ideals(asking, [nip], ["cover shim"], {"cartridge shim": 0.8e-3})
    return asking, {**touching, "cartridge shim": 0.8e-3}


def lash(asking: Asking, packs: dict[str, float], slack: float) -> float:
    """Read the lash with the cover shim so much thicker than at the wanted nip [m]."""
    more = {**packs, "cover shim": packs["cover shim"] + slack}
    return asking.typed(asking.rebuild.checks["lash"], more)


@pytest.mark.parametrize(("words", "angle", "travel"), [((), 20.0, 0.58), ((FLATTER,), 14.5, 0.82)])
def test_travel_that_such_a_drop_takes(
    words: tuple[tuple[str, str], ...], angle: float, travel: float
) -> None:
    """0.58 mm at 20 degrees, 0.82 at 14.5: 0.3 / (2 tan(alpha) sin(45 deg)), two figures."""
    asking, packs = mitre(*words)
    by_hand = 0.3 / (2 * np.tan(np.radians(angle)) * np.sin(np.radians(45.0)))
    assert by_hand == pytest.approx(travel, abs=0.005)
    loose = {**packs, "cover shim": packs["cover shim"] + 0.4e-3}
    slope = pack_slope(asking, asking.rebuild.checks["lash"], loose, "cover shim")
    assert 0.3 / slope == pytest.approx(by_hand, rel=1e-4)


def test_float_of_that_travel_gives_that_drop() -> None:
    """Held away with 0.58 of float more, the dial reads 0.3 more than with the rows nipped."""
    asking, packs = mitre()
    travel = DROP / (2 * np.tan(np.radians(20.0)) * np.sin(np.radians(45.0)))
    drop = lash(asking, packs, 0.1e-3 + travel) - lash(asking, packs, 0.1e-3)
    assert drop == pytest.approx(DROP, rel=1e-3)


def test_elasticity_gives_not_a_tenth_of_it() -> None:
    """From just touching to twice the wanted nip the lash changes by what rows and cover yield."""
    asking, packs = mitre()
    touching, nipped = lash(asking, packs, 17e-6), lash(asking, packs, -17e-6)
    assert 0 < touching - nipped < DROP / 10
