"""Where bodies lie in the finished unit, by hand."""

import pytest

from dryfit.app.usecases import demos
from dryfit.document.read import read_document
from dryfit.model.rebuild import Rebuild
from dryfit.solve.at_rest import AtRest, at_rest, closing
from dryfit.solve.luck import NoLuck
from dryfit.solve.sample import sample

MM = 1e-3


def _rebuild(name: str, **changed: str) -> Rebuild:
    text = demos.text(name).decode()
    for key, value in changed.items():
        text = text.replace(key, value)
    return read_document(text).rebuild


def _at_rest(rebuild: Rebuild, **packs: float) -> AtRest:
    (line,) = rebuild.lines.values()
    thick = {name.replace("_", " "): pack * MM for name, pack in packs.items()}
    return at_rest(rebuild, line, sample(rebuild, NoLuck()), packs=thick, assumed={})


def test_shaft_lies_against_the_shim_and_the_float_is_at_the_cover() -> None:
    """Shim 0.35 on the thrust face, the shaft on it; boss at 152.36 + 0.21 - 3.42 = 149.15."""
    rest = _at_rest(_rebuild("feed-box"), thrust_shim=0.35)
    floor = rest.places["case"]["thrust face"]
    shaft, boss = rest.places["shaft"], rest.places["cover"]["boss"]
    assert (shaft["first end"] - floor) / MM == pytest.approx(0.35, abs=1e-9)
    assert (shaft["last end"] - floor) / MM == pytest.approx(0.35 + 148.70, abs=1e-9)
    assert (boss - floor) / MM == pytest.approx(149.15, abs=1e-9)
    assert rest.hosts["cover"] == "case"
    assert [str(spot) for spot in rest.joints["cover"]] == ["case.joint", "cover.flange"]


def test_spring_is_as_high_as_its_room() -> None:
    """A wave spring that is higher than its room fills it: it lies pressed and not through.

    Of 4.20 free in a room of 3.05: the spigot 2.85 in, 85.90 to the ledge, bearings of 12 and 14
    with 68 between shoulders: 85.90 - 2.85 - 12 - 68 = 3.05. The spring takes up the play of both
    rows, each sqrt(A c) from its middle: with c of 0.011 to 0.028 (C3, bores of 17 and 20:
    ISO 5753-1, from memory) and A of 0.035 ball diameters of 7 to 8 mm, 0.05 to 0.09 a row.
    """
    rest = _at_rest(_rebuild("bench-drill", **{"free: 3.10": "free: 4.20"}))
    spring = rest.places["wave spring"]
    high = (spring["last end"] - spring["first end"]) / MM
    assert 3.05 + 2 * 0.05 < high < 3.05 + 2 * 0.09
    upper = rest.places["upper/outer ring"]["first end"]
    assert spring["last end"] == pytest.approx(upper, abs=1e-9)


def test_line_closes_with_lengths_that_nobody_knows() -> None:
    """With the case not measured the faces still meet: 0.35 + 148.70 + 3.42 - 0.21."""
    rebuild = _rebuild("feed-box", **{"152.36 by depth micrometer": "not known"})
    (line,) = rebuild.lines.values()
    packs = {"thrust shim": 0.35 * MM}
    assumed = closing(
        rebuild, line, sample(rebuild, NoLuck()), packs=packs, likely=lambda *_: 100 * MM
    )
    (key,) = assumed
    assert key == "case.thrust face to case.joint"
    # an estimate of 100 mm pulls at it with the square of its weight, 0.02 to 1: 4 in 10 000 of
    # 52 mm for each face that it has to part
    assert assumed[key] / MM == pytest.approx(0.35 + 148.70 + 3.42 - 0.21, abs=0.15)
