"""Where a formula is used beyond its source, the user is told, with the share of the draws."""

import numpy as np
import pytest

from dryfit.app.usecases.opening import open_text
from dryfit.quantities.finding import Range
from dryfit.solve.luck import Array
from dryfit.solve.ranges import beyond

WARM = Range("rise", -50.0, 150.0, "K", "a table")


@pytest.mark.parametrize(
    ("values", "share"),
    [
        (np.linspace(100, 200, 1001), "50 % of the draws"),
        (np.linspace(-100, 0, 1001), "50 % of the draws"),
        (np.full(5, 151.0), "all draws"),
    ],
)
def test_share_of_the_draws_is_told(values: Array, share: str) -> None:
    """Too warm or too cold, the note says in how many of the draws."""
    [found] = beyond([WARM], {"rise": values}, ("used for",))
    assert f"({share} lie beyond)" in found.message
    assert found.level == "note"


def test_what_is_within_is_not_told() -> None:
    """Within the range, at its ends, or beyond it in one draw of a thousand: nothing is said."""
    once = np.concatenate([np.full(999, 20.0), [200.0]])
    for values in (np.array([-50.0, 150.0]), once):
        assert not list(beyond([WARM], {"rise": values, "length": values}, ()))


OVEN = """
dryfit: 1
sizes in: mm
measured with: micrometer
lines:
  bench:
    from left to right:
      case: [case.left, shaft, case.right]
parts:
  case: {kind: housing}
  shaft: {kind: shaft}
sizes:
  case.left to case.right: 100.2
  shaft: 100.1
states:
  oven: {warmer than room: {shaft: 180 K}}
checks:
  end: {kind: end float, of: shaft, state: oven}
"""


def test_a_state_too_hot_is_noted_at_its_line() -> None:
    """An oven state points at the temperature, and the answer is given all the same."""
    opened = open_text(OVEN)
    assert not opened.stopped
    [note] = opened.findings
    assert "the rise is 180 K" in note.message
    assert note.line == 16


def test_a_large_figure_is_written_with_all_its_digits() -> None:
    """5 000 K are far out, and are told as they were typed, not with a power of ten."""
    warm = Range("rise", -50.0, 150.0, "K", "a table")
    (found,) = beyond([warm], {"rise": np.array([5000.0])}, ("used for",))
    assert "the rise is 5000 K" in found.message
