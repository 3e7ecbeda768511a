"""Travel of rigid parts against a general linear programme (scipy.optimize.linprog, HiGHS)."""

import numpy as np
import pytest
from scipy.optimize import linprog

from dryfit.solve.luck import as_array
from dryfit.solve.rigid import Contact, room


def _random_line(seed: int) -> list[Contact]:
    """Make 6 parts in a row, each after the one before, with short cuts and a way back."""
    rng = np.random.default_rng(seed)
    names = ["case", "a", "b", "c", "d", "e"]
    pairs = [(i, i + 1) for i in range(5)]
    pairs += [tuple(sorted(rng.choice(6, 2, replace=False))) for _ in range(4)]
    lengths = [*rng.uniform(5, 20, 5), *rng.uniform(5, 40, 4)]
    contacts = [
        Contact(names[i], names[j], as_array([x])) for (i, j), x in zip(pairs, lengths, strict=True)
    ]
    return [*contacts, Contact("e", "case", as_array([-rng.uniform(95, 140)]))]


def _travel(contacts: list[Contact], part: str) -> float | None:
    """Greatest less least place of a part with the case at nought, by linear programming."""
    names = sorted({c.before for c in contacts} | {c.after for c in contacts})
    rows = np.zeros((len(contacts), len(names)))
    for row, contact in zip(rows, contacts, strict=True):
        row[names.index(contact.before)] += 1
        row[names.index(contact.after)] -= 1
    limits = [-float(c.length[0]) for c in contacts]
    bounds = [(0, 0) if name == "case" else (None, None) for name in names]
    goal = np.zeros(len(names))
    goal[names.index(part)] = 1
    low = linprog(goal, rows, limits, bounds=bounds)
    high = linprog(-goal, rows, limits, bounds=bounds)
    return -high.fun - low.fun if low.status == high.status == 0 else None


@pytest.mark.parametrize("seed", range(40))
@pytest.mark.parametrize("part", ["a", "c", "e"])
def test_float_of_a_loose_chain_is_that_of_a_linear_programme(seed: int, part: str) -> None:
    """The float told is the travel that the sizes leave, however the stacks branch."""
    contacts = _random_line(seed)
    travel = _travel(contacts, part)
    left = room(contacts, part, "case")
    assert left is not None
    if travel is None:
        assert min(float(room(contacts, p, "case")[0]) for p in "abcde") < 0  # type: ignore[index]
    else:
        assert float(left[0]) == pytest.approx(travel, abs=1e-9)


def test_a_part_that_nothing_stops_has_no_float() -> None:
    """An open end is told as open, not as some large number."""
    assert room([Contact("case", "shaft", as_array([0.0]))], "shaft", "case") is None
