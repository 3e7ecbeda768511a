"""Plots of documents: what is read off them is what the model is asked elsewhere."""

import re
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import pytest
from click.testing import CliRunner, Result
from pypdf import PdfReader
from tests.draw.reading import Read, clashes, items, letters, read

from dryfit.app.cli import drawings as commands
from dryfit.app.cli.main import cli
from dryfit.app.usecases import begin, demos
from dryfit.app.usecases.choose import ChooseRequest, choose
from dryfit.app.usecases.plots import KINDS, PlotRequest, plot
from dryfit.app.usecases.try_on import try_on
from dryfit.draw.paper import Drawing, Ink, Layer, Pen

TESTS = Path(__file__).resolve().parents[1]

WALKS = {
    "bevel-box": "wheel float: {with: cover shim, 0.50: 0.118, 0.55: 0.170, 0.60: 0.219}",
    "headstock": "end float: {with: nut, 0 deg: 0.110, 6 deg: 0.086, 12 deg: 0.060}",
}

SAME = 2e-6
"""Millimetres: the sheet holds places as floats, and answers are rounded to a nanometre."""


def _text(demo: str) -> bytes:
    walk = f"walks:\n  {WALKS[demo]}\n" if demo in WALKS else ""
    return demos.text(demo) + walk.encode()


def _plots(demo: str, kind: str) -> dict[str, Drawing]:
    answer = plot(PlotRequest(_text(demo), kind))
    return {drawing.title: drawing for drawing in answer.drawings}


def _curve(of: Read) -> dict[float, float]:
    """Read the line as typed off a plot of a setting."""
    lines = [s for s in of.strokes(Pen.OUTLINE, Ink.MARKED) if len(s) > 2]
    return {round(x, 6): y for line in lines for x, y in line}


@pytest.mark.parametrize("demo", demos.names())
def test_every_plot_of_every_demo_can_be_read(demo: str) -> None:
    """No text lies over another or leaves the sheet, and no title is there twice."""
    answer = plot(PlotRequest(_text(demo)))
    assert answer.drawings
    assert [clash for drawing in answer.drawings for clash in clashes(drawing)] == []
    titles = [drawing.title for drawing in answer.drawings]
    assert len({*titles}) == len(titles)


@pytest.mark.parametrize("kind", begin.kinds())
def test_a_text_just_begun_is_no_traceback(kind: str) -> None:
    """With nothing measured yet there is nothing to plot, and it is said of each kind why."""
    answer = plot(PlotRequest(begin.start(kind)))
    assert len(answer.without) == len(KINDS) or not answer.answered


@pytest.mark.parametrize("text", sorted(TESTS.glob("*/*.yaml")), ids=lambda path: path.stem)
def test_plots_of_other_machines_can_be_read(text: Path) -> None:
    """Two covers, a worm in inches, parts side by side: plots without a word over another."""
    answer = plot(PlotRequest(text.read_bytes()))
    assert answer.answered
    assert [clash for drawing in answer.drawings for clash in clashes(drawing)] == []


@pytest.mark.parametrize("pack", ["0.20", "0.35", "0.40", "0.45", "0.50"])
def test_reading_against_setting_is_what_expect_says(pack: str) -> None:
    """With each pack the plot shows what `expect --with` says, line and band."""
    (drawing,) = _plots("feed-box", "setting").values()
    plotted = read(drawing)
    asked = try_on(demos.text("feed-box"), [f"thrust shim: {pack}"]).answer
    assert asked is not None
    check = asked.checks[0]
    assert check.expected_mm is not None
    assert check.low_mm is not None
    at = float(pack)
    lines = plotted.strokes(Pen.OUTLINE, Ink.MARKED), plotted.strokes(Pen.EDGE, Ink.MARKED)
    (typed,) = [s for s in lines[0] if len(s) > 2]
    low = min((s for s in lines[1] if len(s) > 2), key=lambda s: s[-1][1] + s[0][1])
    # between the packs that were asked the plot is straight: a bend is seen to a micrometre or two
    assert _on(typed, at) == pytest.approx(check.expected_mm, abs=2e-3)
    assert _on(low, at) == pytest.approx(check.low_mm, abs=2e-3)


def _on(line: list[tuple[float, float]], at: float) -> float:
    """Read a line between its points."""
    for (x0, y0), (x1, y1) in pairwise(line):
        if x0 <= at <= x1:
            return y0 + (y1 - y0) * (at - x0) / (x1 - x0)
    raise AssertionError(f"{at} is not on the line")


def test_pack_in_hand_is_marked_as_set_has_it() -> None:
    """The point and its bar are the pack that `set` says, its reading and band."""
    (drawing,) = _plots("feed-box", "setting").values()
    plotted = read(drawing)
    sheet = choose(ChooseRequest(demos.text("feed-box")))
    check = sheet.checks[0]
    dot = max(plotted.areas(Ink.MARKED), key=lambda at: at[1])
    assert sheet.settings[0].in_hand_mm == pytest.approx(dot[0], abs=SAME)
    assert check.expected_mm == pytest.approx(dot[1], abs=SAME)
    bar = next(
        s for s in plotted.strokes(Pen.OUTLINE, Ink.MARKED) if len(s) == 2 and s[0][0] == s[1][0]
    )
    assert [y for _, y in bar] == pytest.approx([check.low_mm, check.high_mm], abs=SAME)


def test_float_ends_where_the_sum_of_sizes_says() -> None:
    """By hand: 152.36 - 3.42 + 0.21 - 148.70 = 0.45 is the pack at which float ends."""
    (drawing,) = _plots("feed-box", "setting").values()
    curve = _curve(read(drawing))
    ends = max(x for x, y in curve.items() if y > 1e-4)
    assert 0.43 < ends < 0.45
    assert all(y == pytest.approx(0.45 - x, abs=SAME) for x, y in curve.items() if x < 0.45)


def test_stock_steps_are_those_of_the_drawer() -> None:
    """Of 0.05, 0.10, 0.25 and 0.50 every step of 0.05 can be made, and has its bar."""
    (drawing,) = _plots("feed-box", "setting").values()
    bars = [x for x, _ in read(drawing).areas(Ink.IRON)]
    assert bars == pytest.approx([0.05 * n for n in range(4, 11)], abs=SAME)


def test_wanted_band_is_the_want_of_the_text() -> None:
    """From 0.05 to 0.15, as typed."""
    (drawing,) = _plots("feed-box", "setting").values()
    hatch = [y for s in read(drawing).strokes(Pen.HATCH, Ink.IRON) for _, y in s]
    assert (min(hatch), max(hatch)) == pytest.approx((0.05, 0.15), abs=SAME)


def test_inch_document_is_plotted_in_inches() -> None:
    """Washers of 0.119, 0.121, 0.123 and 0.125, float wanted 0.004 to 0.008 in."""
    (drawing,) = _plots("lay-shaft", "setting").values()
    plotted = read(drawing)
    bars = sorted(x for x, _ in plotted.areas(Ink.IRON))
    assert bars == pytest.approx([0.119, 0.121, 0.123, 0.125], abs=1e-6)
    hatch = [y for s in plotted.strokes(Pen.HATCH, Ink.IRON) for _, y in s]
    assert (min(hatch), max(hatch)) == pytest.approx((0.004, 0.008), abs=1e-6)


def test_nut_is_plotted_by_how_far_it_is_turned() -> None:
    """By its pitch of 1.5: 12 degrees take 0.05 of the float."""
    (drawing,) = _plots("headstock", "setting").values()
    curve = sorted(_curve(read(drawing)).items())
    falling = [(x, y) for x, y in curve if y > 0.01]
    (x0, y0), (x1, y1) = falling[0], falling[-1]
    assert (y0 - y1) / (x1 - x0) == pytest.approx(1.5 / 360, rel=0.01)


def test_pair_rests_at_the_preload_that_set_tells() -> None:
    """Where the curves cross is the preload of the sheet, and its want is hatched."""
    (drawing,) = _plots("quill", "pair").values()
    plotted = read(drawing)
    sheet = choose(ChooseRequest(demos.text("quill")))
    need = next(n for n in sheet.needs if n.wanted.kind == "preload")
    assert need.force is not None
    (dot,) = plotted.areas(Ink.MARKED)
    assert dot == pytest.approx((0.0, need.force.expected_n), abs=1e-3)
    hatch = [y for s in plotted.strokes(Pen.HATCH, Ink.IRON) for _, y in s]
    assert need.wanted.low_n == pytest.approx(min(hatch), abs=1e-3)


def test_walk_is_plotted_as_it_is_answered() -> None:
    """Readings, nothing at 0.381 and the stop at 0.370, as `set` says of the same walk."""
    (drawing,) = _plots("bevel-box", "walk").values()
    plotted = read(drawing)
    marks = sorted(plotted.areas(Ink.MARKED))
    assert [x for x, _ in marks] == pytest.approx([0.370, 0.50, 0.55, 0.60], abs=5e-4)
    assert [y for _, y in marks[1:]] == pytest.approx([0.118, 0.170, 0.219], abs=SAME)
    (band,) = plotted.areas(Ink.IRON)
    assert band == pytest.approx((0.381, 0.0), abs=5e-4)
    told = " ".join(one.text for one in letters(drawing))
    assert "stop at 0.370 mm, for nip of 0.018 mm" in told


def test_walk_that_was_typed_is_plotted(tmp_path: Path) -> None:
    """`dryfit walk -o` draws what it answers; one off the line says so on the plot too."""
    out = tmp_path / "w.svg"
    packs = ["0.50: 0.12", "0.55: 0.17", "0.60: 0.30", "0.65: 0.27"]
    done = _run("walk", "--pack", *packs, "-o", str(out))
    assert done.exit_code == 0, done.output
    assert "is written: Walk to nothing" in done.output
    drawn = " ".join(ElementTree.fromstring(out.read_text(encoding="utf-8")).itertext())
    assert "pack, thickness, mm" in drawn
    assert "something is off the line" in " ".join(drawn.split())
    again = _run("walk", "--pack", *packs, "-o", str(out))
    assert again.exit_code == 2
    assert "is there already" in again.output
    assert _run("walk", "--pack", *packs, "-o", "x.txt").exit_code == 2


def test_doubt_names_sizes_and_instruments() -> None:
    """The shaft read by caliper is what makes the float doubtful, and stands first."""
    drawing = _plots("feed-box", "doubt")["What makes up the doubt: end float"]
    words = [one.text for one in letters(drawing)]
    figures = [one.text for one in items(drawing, Layer.PLOT) if hasattr(one, "text")]
    assert "shaft, by caliper" in words
    assert words.index("shaft, by caliper") < words.index("gasket")
    assert float(figures[0]) > 50


def test_kinds_of_the_command_are_those_that_are_drawn() -> None:
    """What can be typed is what there is."""
    assert tuple(KINDS) == commands.KINDS


def test_text_that_stops_has_findings_and_no_plot() -> None:
    """A document that cannot be answered says why instead."""
    answer = plot(PlotRequest(b"dryfit: 1\n"))
    assert not answer.answered
    assert answer.findings
    assert answer.drawings == ()


def test_sizes_not_known_leave_plots_out() -> None:
    """With the shaft not measured nothing is drawn, and it is said why."""
    text = demos.text("feed-box").replace(b"shaft: 148.70", b"shaft: not known")
    answer = plot(PlotRequest(text, "setting"))
    assert answer.drawings == ()
    assert answer.without == ("setting: no setting moves anything that is wanted and known",)


def _run(*words: str) -> Result:
    return CliRunner().invoke(cli, words)


@pytest.mark.parametrize(
    ("name", "begins"), [("x.svg", b"<svg"), ("x.pdf", b"%PDF"), ("x.dxf", b"  0\nSECTION")]
)
def test_plot_is_written_by_its_ending(tmp_path: Path, name: str, begins: bytes) -> None:
    """The ending says what is written."""
    done = _run("plot", "feed-box", "setting", "-o", str(tmp_path / name))
    assert done.exit_code == 0, done.output
    assert (tmp_path / name).read_bytes().replace(b"\r\n", b"\n").startswith(begins)
    assert "End float of shaft against thrust shim" in done.output


def test_plots_beside_the_document(tmp_path: Path) -> None:
    """Without -o they stand in one PDF beside the file, a page each."""
    file = tmp_path / "my box.yaml"
    file.write_bytes(demos.text("feed-box"))
    assert _run("plot", str(file)).exit_code == 0
    data = (tmp_path / "my box-plots.pdf").read_bytes()
    assert len(re.findall(rb"/MediaBox", data)) == 3


@pytest.mark.parametrize(("paper", "wide"), [("a4", b"595.27"), ("letter", b"612 792")])
def test_sheets_to_print(tmp_path: Path, paper: str, wide: bytes) -> None:
    """On paper more than one stands on a sheet: A4 is 595.28 points wide, Letter 612 by 792."""
    out = tmp_path / "x.pdf"
    assert _run("plot", "feed-box", "-o", str(out), "--paper", paper).exit_code == 0
    boxes = re.findall(rb"/MediaBox\s*\[([^\]]*)\]", out.read_bytes())
    assert 1 <= len(boxes) < 3
    assert all(wide in box for box in boxes)


@pytest.mark.parametrize("title", ["lathe " * 33, "W" * 200])
def test_a_long_title_stays_within_the_head_of_a_sheet(tmp_path: Path, title: str) -> None:
    """Of a title of 200 characters a sheet to print bears one line, within A4, 595 points wide."""
    file, out = tmp_path / "x.yaml", tmp_path / "x.pdf"
    text = demos.text("feed-box").decode().replace("title: Scarth Foss feed box", f"title: {title}")
    file.write_text(text, encoding="utf-8")
    done = _run("plot", str(file), "doubt", "-o", str(out), "--paper", "a4")
    assert done.exit_code == 0, done.output
    head = PdfReader(out).pages[0].extract_text().split("1 of", maxsplit=1)[0].strip()
    assert head.endswith("...")
    assert "\n" not in head
    # A W is hardly less wide than its size of type, here 9 points, in any sans face (from memory).
    assert head.count("W") * 9 * 0.85 < 595


def test_svg_of_more_than_one_have_numbers(tmp_path: Path) -> None:
    """Each plot is a file of its own."""
    assert _run("plot", "feed-box", "-o", str(tmp_path / "x.svg")).exit_code == 0
    assert sorted(p.name for p in tmp_path.iterdir()) == ["x-1.svg", "x-2.svg", "x-3.svg"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["-o", "x.png"], "x.png ends in .png; it must be one of .svg, .pdf, .dxf"),
        (["-o", "x"], "x has no ending; it must be one of .svg, .pdf, .dxf"),
        (["-o", "none/x.svg"], "there is no folder none; make it first"),
        (["-o", "x.svg", "--paper", "a4"], "--paper is for a PDF"),
        (["bogus", "-o", "x.svg"], "'setting', 'pair', 'doubt', 'walk'"),
    ],
)
def test_what_cannot_be_written_is_told(
    words: list[str], told: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A wrong ending, folder or kind is told with what there is, and nothing is written."""
    monkeypatch.chdir(tmp_path)
    done = _run("plot", "feed-box", *words)
    assert done.exit_code == 2
    assert told in " ".join(done.output.split())
    assert list(tmp_path.iterdir()) == []


def test_a_file_that_is_there_is_left_alone(tmp_path: Path) -> None:
    """Only --replace writes over a file."""
    out = tmp_path / "x.svg"
    out.write_text("mine", encoding="utf-8")
    done = _run("plot", "feed-box", "setting", "-o", str(out))
    assert done.exit_code == 2
    assert "is there already" in done.output
    assert out.read_text(encoding="utf-8") == "mine"
    assert _run("plot", "feed-box", "setting", "-o", str(out), "--replace").exit_code == 0
    assert out.read_text(encoding="utf-8").startswith("<svg")


def test_no_plot_of_a_kind_says_why(tmp_path: Path) -> None:
    """A box without rows has no pair, and the command says so and fails."""
    done = _run("plot", "feed-box", "pair", "-o", str(tmp_path / "x.svg"))
    assert done.exit_code == 1
    assert "no plot of pair: no line has rows" in done.output
