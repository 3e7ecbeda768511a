"""Faces in a row, taken together, change nothing but the number of equations."""

from collections.abc import Collection, Sequence

import numpy as np
import pytest
from tests.invariance.telling import text_of
from tests.invariance.test_units_that_give import UNITS, data_of

from dryfit.app.usecases.opening import open_text
from dryfit.solve import elastic
from dryfit.solve.luck import Luck, full
from dryfit.solve.predict import Reading, predict
from dryfit.solve.rigid import Contact
from dryfit.solve.sample import sample
from dryfit.solve.series import FACE, Run, runs


def contact(before: str, after: str, length: float, give: float = 0.0) -> Contact:
    """Make two faces."""
    return Contact(before, after, np.array([length]), give=give)


def test_three_spacers_are_one() -> None:
    """Lengths add up, and so does what they give: springs in a row."""
    chain = [contact("case", "a", 1.0, 1e-9), contact("a", "b", 2.0), contact("b", "c", 4.0, 3e-9)]
    (found,) = runs(chain, ["case", "c"])
    assert found.links == (0, 1, 2)
    assert found.inside == ("a", "b")
    assert found.whole.length.tolist() == [7.0]
    assert 1 / FACE + found.whole.give == pytest.approx(3 / FACE + 4e-9, rel=1e-12)


def test_a_body_that_a_third_thing_touches_is_kept() -> None:
    """A branch ends a run."""
    chain = [contact("case", "a", 1.0), contact("a", "b", 2.0), contact("case", "a", 0.9)]
    assert [run.links for run in runs(chain, ["case", "b"])] == [(0,), (1,), (2,)]


def test_a_body_between_two_faces_of_one_other_is_kept() -> None:
    """A washer in a groove: its run would begin where it ends."""
    chain = [contact("case", "washer", 1.0), contact("washer", "case", -1.1)]
    assert [run.links for run in runs(chain, ["case"])] == [(0,), (1,)]


def test_parts_inside_lie_where_the_force_or_their_start_has_them() -> None:
    """Pressed by 500 N each joint gives 500 / 5e9 = 0.1 um; loose, a part stays where it was."""
    (run,) = runs([contact("case", "a", 1.0), contact("a", "b", 2.0)], ["case", "b"])
    ends = np.zeros(1), np.array([3.0 - 0.2e-6])
    pressed = run.inner_places(ends, {"a": np.zeros(1)}, np.array([500.0]))
    assert pressed["a"] - 1.0 == pytest.approx(-0.1e-6, abs=1e-12)
    apart = np.zeros(1), np.array([3.5])
    for start, place in ((0.0, 1.0), (1.2, 1.2), (9.0, 1.5)):
        loose = run.inner_places(apart, {"a": np.array([start])}, np.zeros(1))
        assert loose["a"][0] == pytest.approx(place, abs=1e-15)


@pytest.mark.parametrize("name", UNITS)
def test_whole_units_read_as_if_each_part_were_a_body(
    name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Every check of every unit to 1e-7 mm, with fewer bodies."""
    rebuild, luck = open_text(text_of(data_of(name))).rebuild, Luck(40)
    packs = {setting: full(luck, 0.1e-3) for setting in rebuild.settings}
    insides: list[str] = []

    def told() -> dict[str, Reading]:
        drawn = sample(rebuild, luck)
        return {n: predict(rebuild, c, drawn, packs=packs) for n, c in rebuild.checks.items()}

    def noted(contacts: Sequence[Contact], kept: Collection[str]) -> list[Run]:
        found = runs(contacts, kept)
        insides.extend(name for run in found for name in run.inside)
        return found

    monkeypatch.setattr(elastic, "runs", noted)
    together = told()
    assert insides
    monkeypatch.setattr(elastic, "runs", each_alone)
    for check, other in told().items():
        np.testing.assert_allclose(together[check].true, other.true, rtol=1e-9, atol=1e-10)


def each_alone(contacts: Sequence[Contact], _: Collection[str]) -> list[Run]:
    """Take nothing together."""
    return [Run((n,), (c,), c) for n, c in enumerate(contacts)]
