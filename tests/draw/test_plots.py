"""Plots of given figures, read back from the display list by their own axes."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.draw.hostile import any_text
from tests.draw.reading import clashes, items, letters, read

from dryfit.draw.lettering import lines_of
from dryfit.draw.paper import Anchor, Area, Drawing, Ink, Layer, Lettering, Pen
from dryfit.draw.plot_band import BandPlot, band_plot
from dryfit.draw.plot_doubt import DoubtPlot, Share, doubt_plot
from dryfit.draw.plot_frame import Frame, Scale
from dryfit.draw.plot_lines import clipped, hatched
from dryfit.draw.plot_pair import PairPlot, Pushed, pair_plot
from dryfit.draw.plot_setting import Asked, SettingPlot, setting_plot
from dryfit.draw.plot_ticks import figure, multiples, spread, step_of
from dryfit.draw.plot_walk import Step, WalkPlot, walk_plot
from dryfit.draw.plot_warmth import WarmthPlot, warmth_plot
from dryfit.draw.svg import svg

NEAR = 1e-5
"""In units of the axis: the places on the sheet are floats, the figures at ticks exact."""


def a_setting(name: str = "cover shim") -> Drawing:
    """Float 0.45 less the pack, from 0.2 to 0.5."""
    asked = tuple(
        Asked(at, max(0.45 - at, 0), max(0.41 - at, 0), 0.49 - at) for at in (0.2, 0.35, 0.45, 0.48)
    )
    return setting_plot(
        SettingPlot(
            f"End float against {name}",
            Scale(name, "mm", (0.18, 0.5)),
            Scale(f"end float, read at {name}", "mm", (0.0, 0.3), ("thou", 1 / 0.0254)),
            asked,
            (0.05, 0.15),
            (0.20, 0.25, 0.30, 0.45),
            name,
            Asked(0.35, 0.10, 0.06, 0.14),
            name,
        )
    )


def a_pair(name: str = "front") -> Drawing:
    """Two rows that part at 28 and at -28."""
    rows = tuple(Pushed(x, max(28 + x, 0.0), max(28 - x, 0.0)) for x in (-40.0, -28.0, 28.0, 40.0))
    across = Scale(f"{name} from rest", "µm", (-45.0, 45.0))
    upwards = Scale("force", "N", (0.0, 80.0))
    limits = (20.0, None)
    return pair_plot(PairPlot(name, across, upwards, rows, name, name, 28.0, (20.0, 36.0), limits))


def a_doubt(name: str = "shaft") -> Drawing:
    """Three shares."""
    shares = (Share(name, 0.6), Share(name, 0.3), Share(name, 0.004))
    return doubt_plot(DoubtPlot(name, name, shares, name))


def a_walk(name: str = "cover shim") -> Drawing:
    """Float read with four packs, one of them off; nothing at 0.38, stop at 0.37."""
    steps = (Step(0.5, 0.12), Step(0.55, 0.17), Step(0.6, 0.22), Step(0.65, 0.31, True))
    across, upwards = Scale(name, "mm", (0.35, 0.67)), Scale("float", "mm", (-0.02, 0.35))
    return walk_plot(WalkPlot(name, across, upwards, steps, 1.0, 0.38, 0.374, 0.386, 0.37, name))


PLOTS: dict[str, Callable[[str], Drawing]] = {
    "setting": a_setting,
    "pair": a_pair,
    "doubt": a_doubt,
    "walk": a_walk,
}


@pytest.mark.parametrize(
    ("low", "high", "most", "want"),
    [
        (0.0, 1.0, 11, 0.1),
        (0.0, 1.0, 10, 0.2),
        (0.0, 1.0, 5, 0.5),
        (0.0, 0.3, 7, 0.05),
        (-0.056, 0.078, 8, 0.02),
        (-13.2, 13.4, 7, 5.0),
        (0.0, 2065.0, 8, 500.0),
        (0.1153, 0.1267, 7, 0.002),
    ],
)
def test_ticks_are_one_two_or_five(low: float, high: float, most: int, want: float) -> None:
    """By hand: the smallest step of 1, 2, 5 that has no more ticks than there is room for."""
    assert step_of(low, high, most) == want


@given(st.floats(-1e4, 1e4), st.floats(1e-4, 1e4), st.integers(2, 12))
def test_ticks_of_any_axis(low: float, wide: float, most: int) -> None:
    """There are never more ticks than room, and the next finer step would have more."""
    high = low + wide
    step = step_of(low, high, most)
    assert len(multiples(low, high, step)) <= most
    assert f"{step:.0e}"[0] in "125"
    assert all(
        low - 1e-6 * wide <= n * step <= high + 1e-6 * wide for n in multiples(low, high, step)
    )


def test_figures_have_the_decimals_of_their_step() -> None:
    """Nought is 0, the others as fine as the step and no finer."""
    steps = [(n, 0.25) for n in (-1, 0, 2)] + [(3, 100.0), (1, 0.002)]
    assert [figure(n, step) for n, step in steps] == ["−0.2", "0", "0.5", "300", "0.002"]


@pytest.mark.parametrize("kind", PLOTS)
def test_no_text_lies_over_another(kind: str) -> None:
    """Every word can be read, and is on the sheet."""
    assert clashes(PLOTS[kind]("cover shim")) == []


@pytest.mark.parametrize("kind", PLOTS)
@given(name=any_text)
def test_no_name_however_long_covers_another(kind: str, name: str) -> None:
    """Eighty letters without a space, markup, any script: broken into lines that have room."""
    drawing = PLOTS[kind](name or "x")
    assert clashes(drawing) == []
    assert svg(drawing)


def test_line_and_band_lie_where_they_were_asked() -> None:
    """What is asked of the model is what is read off the plot."""
    plot = read(a_setting())
    (line,) = [s for s in plot.strokes(Pen.OUTLINE, Ink.MARKED) if len(s) == 4]
    want = [(0.2, 0.25), (0.35, 0.10), (0.45, 0.0), (0.48, 0.0)]
    assert [c for p in line for c in p] == pytest.approx([c for p in want for c in p], abs=NEAR)
    edges = [s for s in plot.strokes(Pen.EDGE, Ink.MARKED) if len(s) > 2]
    low, high = sorted(edges, key=lambda s: s[1][1])
    assert low[1] == pytest.approx((0.35, 0.06), abs=NEAR)
    assert high[1] == pytest.approx((0.35, 0.14), abs=NEAR)


def test_wanted_band_is_hatched_from_limit_to_limit() -> None:
    """Hatching fills 0.05 to 0.15 and nothing else, and rules close it."""
    plot = read(a_setting())
    hatch = [p for s in plot.strokes(Pen.HATCH, Ink.IRON) for p in s]
    heights = [y for _, y in hatch]
    assert (min(heights), max(heights)) == pytest.approx((0.05, 0.15), abs=NEAR)
    rules = {round(y, 4) for s in plot.strokes(Pen.EDGE, Ink.IRON) for _, y in s}
    assert {0.05, 0.15} <= rules


def test_stock_and_the_pack_in_hand_stand_below_their_thickness() -> None:
    """Each pack that can be made has a bar of its own; the one in hand is marked."""
    plot = read(a_setting())
    assert [x for x, _ in plot.areas(Ink.IRON)] == pytest.approx([0.2, 0.25, 0.3, 0.45], abs=NEAR)
    marked = plot.areas(Ink.MARKED)
    assert [x for x, _ in marked] == pytest.approx([0.35, 0.35], abs=NEAR)
    assert marked[0][1] == pytest.approx(0.10, abs=NEAR)


def test_thou_on_the_right_are_those_of_the_left() -> None:
    """By definition 0.0254 mm is one thou: where 5 stands on the right, 0.127 is on the left."""
    drawing = a_setting()
    plot = read(drawing)
    (five,) = [one for one in letters(drawing) if one.text == "4" and one.at[0] > 100]
    assert plot.at((0.0, five.at[1] + five.height / 2))[1] == pytest.approx(0.1016, abs=NEAR)


def test_rows_cross_where_they_rest() -> None:
    """Both curves pass the point that is marked, at the force of the preload."""
    plot = read(a_pair())
    ahead, back = plot.strokes(Pen.OUTLINE, Ink.IRON)[0], plot.strokes(Pen.ASSUMED, Ink.IRON)[0]
    assert ahead[0] == pytest.approx((-40.0, 0.0), abs=1e-3)
    assert back[0] == pytest.approx((-40.0, 68.0), abs=1e-3)
    assert plot.areas(Ink.MARKED) == [pytest.approx((0.0, 28.0), abs=1e-3)]


def test_a_want_without_an_upper_limit_is_hatched_to_the_top() -> None:
    """At least 20 N: from there up to the edge of the plot."""
    hatch = [y for s in read(a_pair()).strokes(Pen.HATCH, Ink.IRON) for _, y in s]
    assert (min(hatch), max(hatch)) == pytest.approx((20.0, 80.0), abs=1e-3)
    assert "wanted: at least 20 N" in [one.text for one in letters(a_pair())]


def test_bars_are_as_long_as_their_shares() -> None:
    """Half the share is half the length; what is less than one in a hundred says so."""
    drawing = a_doubt()
    bars = [i for i in items(drawing, Layer.PLOT) if isinstance(i, Area)]
    long = [max(x for x, _ in b.points) - min(x for x, _ in b.points) for b in bars]
    assert [one / long[0] for one in long] == pytest.approx([1.0, 0.5, 0.004 / 0.6])
    beside = [i for i in items(drawing, Layer.PLOT) if isinstance(i, Lettering)]
    assert [one.text for one in beside] == ["60", "30", "under 1"]


def test_walk_shows_readings_nothing_and_where_to_stop() -> None:
    """The line passes nothing at 0.38, goes on to 0.37, and its pointer stands there."""
    plot = read(a_walk())
    marked = plot.areas(Ink.MARKED)
    assert sorted(x for x, _ in marked) == pytest.approx([0.37, 0.5, 0.55, 0.6], abs=1e-4)
    (line,) = plot.strokes(Pen.OUTLINE, Ink.IRON)
    assert line == [pytest.approx((0.5, 0.12), abs=NEAR), pytest.approx((0.6, 0.22), abs=NEAR)]
    beyond = [s for s in plot.strokes(Pen.EDGE, Ink.IRON) if s[0][0] != s[1][0]]
    assert any(s[0] == pytest.approx((0.37, -0.01), abs=NEAR) for s in beyond)
    (band,) = plot.areas(Ink.IRON)
    assert band == pytest.approx((0.38, 0.0), abs=NEAR)


def test_a_reading_left_out_is_an_open_circle() -> None:
    """It is seen, and that it was not gone by."""
    blanks = [i for i in items(a_walk(), Layer.PLOT) if isinstance(i, Area) and i.blank]
    assert len(blanks) == 1
    assert "read, but left out of the line" in [one.text for one in letters(a_walk())]


def test_lines_are_cut_at_the_frame() -> None:
    """By hand: from (-1, -1) to (3, 3) in a frame of 0 to 2 leaves (0, 0) to (2, 2)."""
    frame = Frame(0.0, 0.0, 20.0, 20.0, (0.0, 2.0), (0.0, 2.0))
    (run,) = clipped(frame, [(-1.0, -1.0), (3.0, 3.0)])
    assert run == ((0.0, 0.0), (20.0, 20.0))
    out_and_in = [(1.0, 1.0), (1.0, 3.0), (1.5, 3.0), (1.5, 1.0)]
    first, second = clipped(frame, out_and_in)
    assert first == ((10.0, 10.0), (10.0, 20.0))
    assert second == ((15.0, 20.0), (15.0, 10.0))
    assert list(clipped(frame, [(3.0, 0.0), (3.0, 2.0)])) == []


def test_hatching_stays_in_its_box() -> None:
    """Section lines at 45 degrees end at the edges."""
    for stroke in hatched((2.0, 3.0), (30.0, 9.0)):
        (x0, y0), (x1, y1) = stroke.points
        assert x1 - x0 == pytest.approx(y1 - y0)
        assert 2.0 <= x0 < x1 <= 30.0
        assert min(y0, y1) >= 3.0 - 1e-9
        assert max(y0, y1) <= 9.0 + 1e-9


@given(st.text(max_size=80), st.floats(20.0, 100.0))
def test_broken_lines_lose_no_letter(text: str, wide: float) -> None:
    """All letters of a text are there after it was broken."""
    assert "".join(lines_of(text, wide, 2.5)).replace(" ", "") == text.replace(" ", "")


def test_span_of_an_axis_begins_at_nothing_if_told() -> None:
    """A float begins at nothing; what is less than that has room too."""
    assert spread([0.1, 0.2], nought=True)[0] == 0.0
    assert spread([-0.1, 0.2], nought=True)[0] < -0.1
    assert spread([5.0, 5.0])[0] < 5.0 < spread([5.0, 5.0])[1]


def a_band(read: float | None = 0.03) -> Drawing:
    """End float: nine in ten from 0 to 0.06, wanted 0.02 to 0.05."""
    drawn = band_plot(BandPlot("float", "mm", (0.0, 0.06), (0.02, 0.05), read))
    assert drawn is not None
    return drawn


def _across(drawing: Drawing, ticks: tuple[str, str]) -> Callable[[float], float]:
    """Read the axis of a small plot back from two of its ticks."""
    at = {one.text: one.at[0] for one in letters(drawing)}
    (one, two), values = (at[tick] for tick in ticks), [float(tick.split()[0]) for tick in ticks]
    return lambda x: values[0] + (x - one) / (two - one) * (values[1] - values[0])


@pytest.mark.parametrize("read", [0.03, 0.11, 0.0])
def test_a_reading_stands_where_its_figure_is(read: float) -> None:
    """The pointer stands over its value on the axis, inside of the bands or out of them."""
    drawing = a_band(read)
    value = _across(drawing, ("0", "0.05" if read > 0.1 else "0.02"))
    (pointer,) = [
        one for one in items(drawing, Layer.PLOT) if isinstance(one, Area) and one.ink is Ink.MARKED
    ]
    assert value(pointer.points[0][0]) == pytest.approx(read, abs=NEAR)


def test_a_reading_far_off_does_not_squeeze_its_bands() -> None:
    """2.5 beside a band of 0.06 is said to be off the scale, and the band can still be read."""
    assert "off the scale" in [one.text for one in letters(a_band(2.5))]
    assert "0.02" in [one.text for one in letters(a_band(2.5))]


def test_without_any_band_there_is_no_plot() -> None:
    """Where nothing is known and nothing wanted, nothing is drawn."""
    assert band_plot(BandPlot("float", "mm", (None, None), (None, None), 0.1)) is None


@pytest.mark.parametrize(
    ("expected", "wanted"),
    [((0.0, 0.0), (None, None)), ((None, None), (5.0, None)), ((1e-4, 2e-4), (None, 30.0))],
)
def test_odd_bands_are_drawn_within_the_sheet(
    expected: tuple[float | None, float | None], wanted: tuple[float | None, float | None]
) -> None:
    """A band of no width, one limit only, bands of very different width: all stays on the sheet."""
    for shown in (None, 0.0, 1e6, -1e6):
        drawing = band_plot(BandPlot("float", "mm", expected, wanted, shown))
        assert drawing is not None
        corners = [
            p for one in items(drawing, Layer.PLOT) if isinstance(one, Area) for p in one.points
        ]
        assert all(-1 <= x <= drawing.width + 1 for x, _ in corners)
        assert svg(drawing)


def test_warmth_stands_over_its_minute() -> None:
    """A log read back from the plot by its own axes, the stop and the room among it."""
    log = ((0.0, 21.0), (20.0, 35.0), (40.0, 38.0))
    drawing = warmth_plot(WarmthPlot("front", "°C", log, 21.0, 60.0, (31.0, 46.0, 45.0)))
    told = [one.text for one in letters(drawing)]
    assert {"stop", "room", "levels here", "minutes"} <= set(told)
    places = {one.text: one.at for one in letters(drawing) if one.anchor is Anchor.MIDDLE}
    ring = [one for one in items(drawing, Layer.PLOT) if isinstance(one, Area) and one.blank]
    centres = [
        (sum(x for x, _ in one.points) / 24, sum(y for _, y in one.points) / 24) for one in ring
    ]
    across = (places["40"][0] - places["20"][0]) / 20
    assert centres[1][0] - centres[0][0] == pytest.approx(20 * across, abs=1e-3)
    assert centres[2][0] - centres[0][0] == pytest.approx(40 * across, abs=1e-3)


@given(any_text)
def test_any_title_of_warmth_is_drawn(title: str) -> None:
    """A place may be named by whatever its owner likes."""
    log = ((0.0, 21.0), (5.0, 21.0))
    assert svg(warmth_plot(WarmthPlot(title, "°F", log, 21.0, 140.0, (31.0, 46.0, 45.0))))
