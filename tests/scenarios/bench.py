"""The worked units beside this file, with other words here and there, put to the model."""

from collections.abc import Mapping
from pathlib import Path

import numpy as np

from dryfit.app.usecases.opening import open_text
from dryfit.model.rebuild import Rebuild
from dryfit.solve.benchtop import lay_on
from dryfit.solve.elastic import Held
from dryfit.solve.luck import Luck, NoLuck
from dryfit.solve.predict import Reading, predict
from dryfit.solve.rings import INNER, OUTER, ring
from dryfit.solve.sample import sample
from dryfit.solve.states import Fitted, conditions

FOLDER = Path(__file__).resolve().parent


def unit(name: str, words: Mapping[str, str] | None = None) -> Rebuild:
    """Read a unit; each old text in `words` stands there once and gives way to the new one."""
    text = (FOLDER / f"{name}.yaml").read_text(encoding="utf-8")
    for old, new in (words or {}).items():
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    found = open_text(text)
    assert not found.stopped, [finding.message for finding in found.findings]
    return found.rebuild


def read(rebuild: Rebuild, check: str) -> Reading:
    """Ask for a check with all sizes as they were read."""
    return predict(rebuild, rebuild.checks[check], sample(rebuild, NoLuck()), packs={})


def shown(rebuild: Rebuild, check: str) -> float:
    """Say what the instrument shows [m], [N]."""
    return float(read(rebuild, check).shown[0])


def true(rebuild: Rebuild, check: str) -> float:
    """Give the travel or length itself [m]."""
    return float(read(rebuild, check).true[0])


def band(rebuild: Rebuild, check: str, draws: int = 4000) -> tuple[float, float]:
    """Say between what nine of ten such units read [m], [N]."""
    found = predict(rebuild, rebuild.checks[check], sample(rebuild, Luck(draws)), packs={})
    low, high = np.quantile(found.shown, [0.05, 0.95])
    return float(low), float(high)


def at_rest(rebuild: Rebuild, state: str = "built") -> Held:
    """Bring the only line of a unit to rest."""
    put = Fitted({}, conditions(rebuild, state, NoLuck()), {}, {})
    (line,) = rebuild.lines.values()
    return lay_on(rebuild, sample(rebuild, NoLuck()), put, line).at_rest({})


def load(held: Held, bearing: str) -> float:
    """Give the thrust in a row that stops one way, or both [N]."""
    inner, outer = ring(bearing, INNER), ring(bearing, OUTER)
    return float((held.force(inner, outer) + held.force(outer, inner))[0])


def place(held: Held, body: str) -> float:
    """Say where a body lies [m]."""
    return float(held.place(body)[0])
