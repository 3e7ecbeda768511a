"""`walk` as typed: the sheet in the fitter's words, slips all at once, the form for the bench."""

import json
import re
from pathlib import Path

import jsonschema
import pytest
from click.testing import CliRunner, Result
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from dryfit.app.cli.main import cli
from dryfit.app.cli.walk import walk_sheet
from dryfit.app.usecases.walk import WalkRequest, walked
from dryfit.quantities import read_mark

DOCS = Path(__file__).resolve().parents[2] / "docs"
NUT = ("--pitch", "1.5", "--units", "mm")
THREE = ("0 deg: 0.110", "6 deg: 0.085", "12 deg: 0.060")


def _run(*words: str) -> Result:
    return CliRunner().invoke(cli, ["walk", *words])


def _flat(text: str) -> str:
    return " ".join(text.split())


def test_spindle_nut_is_told_how_far_to_go() -> None:
    """M45x1.5, 0.060 read, 0.008 wanted: 12.48 degrees, and pi x 70 x 12.48 / 360 = 7.62 mm."""
    out = _flat(_run(*NUT, *THREE, "--want", "0.008", "--across", "70").output)
    assert "tighten 12.5 degrees, 7.6 mm at the marks, to 24.5 degrees" in out
    assert "10 degrees tighter take 0.042 mm of float" in out


def test_nut_turned_too_far_is_backed_off_well_past() -> None:
    """0.060 read and 0.085 wanted: 6 degrees past it, and a ring that grips does not come back."""
    out = _flat(_run(*NUT, *THREE, "--want", "0.085").output)
    assert "you are 6.0 degrees past it: back off well past, press the ring back" in out
    assert "come again to 6.0 degrees" in out


@pytest.mark.parametrize(
    ("readings", "told", "go"),
    [
        (("0.50: 0.12", "0.45: 0.07", "0.43: 0.05"), "gives", "pack of 0.390 mm: 0.040 mm thinner"),
        (("0.50: 0.12", "0.55: 0.07", "0.57: 0.05"), "takes", "pack of 0.610 mm: 0.040 mm thicker"),
    ],
)
def test_pack_goes_the_way_its_readings_say(readings: tuple[str, ...], told: str, go: str) -> None:
    """0.05 read last and 0.01 wanted is 0.04 of pack, taken out or put in."""
    out = _flat(_run("--pack", "--units", "mm", *readings, "--want", "0.01").output)
    assert f"A thicker pack {told} float" in out
    assert go in out


def test_past_nothing_is_nip() -> None:
    """0.020 past nothing less the 0.003 that yield: (0.060 + 0.017) / 1.5 x 360 = 18.5 degrees."""
    out = _flat(_run(*NUT, *THREE, "--past", "0.02").output)
    assert "Where to stop: 0.020 mm of nip, past nothing" in out
    assert "tighten 18.5 degrees" in out
    assert re.search(r"it is then a nip of 0\.00\d to 0\.03\d mm", out)
    assert "Past nothing the dial is blind" in out


@pytest.mark.parametrize(
    ("text", "degrees"),
    [
        ("0", 0),
        ("10 deg", 10),
        ("1/8 turn", 45),
        ("2 flats of 6", 120),
        ("1 1/2 flats of 6", 90),
        ("3 slots of 4", 270),
        ("1/2 hour", 15),
        ("-1 hour", -30),
    ],
)
def test_marks_are_read_as_a_fitter_says_them(text: str, degrees: float) -> None:
    """A turn is 360 degrees, a flat of six 60, an hour of the clock 30."""
    assert read_mark(text).degrees == pytest.approx(degrees)


def test_every_way_of_marking_gives_the_same_walk() -> None:
    """30 and 60 degrees as an hour and a flat of six; floats in mm, thou and inches."""
    plain = walked(WalkRequest(("30 deg: 0.3048 mm", "60 deg: 0.1778 mm"), "inch", "16 per inch"))
    other = walked(WalkRequest(("1 hour: 12.0 thou", "1 flat of 6: 0.0070"), "inch", "1.5875 mm"))
    assert plain.nothing == other.nothing


def test_readings_in_inches_end_in_inches() -> None:
    """0.003 x 16 x 360 = 17.28 degrees, pi x 3 x 17.28 / 360 = 0.452 in, and no mm is printed."""
    out = _run(
        "--pitch", "16 per inch", "--units", "inch", "0: 0.0080", "1/25 turn: 0.0055",
        "28.8 deg: 3.0 thou", "--across", "3",
    ).output  # fmt: skip
    assert "tighten 17.3 degrees, 0.452 in at the marks" in _flat(out)
    assert not re.search(r"\d mm", out)


SLIPS: list[tuple[tuple[str, ...], str]] = [
    ((*NUT, "0: 0.1"), "one reading: a line needs two"),
    ((*NUT,), "no reading"),
    ((*NUT, "0: 0.1", "10 deg 0.06"), "no colon in '10 deg 0.06'"),
    ((*NUT, "0: 0.1", "10: 0.06"), "write 10 deg or 10 turn"),
    ((*NUT, "0: 0.1", "2 flats: 0.06"), "how many of them go round the nut"),
    ((*NUT, "0: 0.1", "9" * 90 + " deg: 0.06"), "too many for one value"),
    ((*NUT, "0: 0.1", "10 deg: 0.06", "10 deg: 0.05"), "10 deg is the same mark as in reading 2"),
    ((*NUT, "0: 0.1", "20 deg: 0.02", "10 deg: 0.06"), "the nut was turned back between them"),
    ((*NUT, "0: 0.1", "10 deg: -0.02"), "less than nothing, and no float is"),
    ((*NUT, "-10 deg: 0.02", "0: 0.06", "10 deg: 0.1"), "the float grows from 0.02 (-10 deg)"),
    ((*NUT, "0: 0.1", "20 deg: 0.1", "40 deg: 0.1"), "the ring does not follow"),
    ((*NUT, "0: 0.18", "5 deg: 0.16", "10 deg: 0.14"), "read again at the mark 27 deg"),
    ((*NUT, *THREE, "--want", "0.5"), "on the slack side of the first reading"),
    ((*NUT, *THREE, "--want", "-0.01"), "behind --past"),
    ((*NUT, *THREE, "--want", "0.01", "--past", "0.02"), "leave out --want or --past"),
    ((*NUT, *THREE, "--want", "at least 0.01"), "write both limits"),
    ((*NUT, *THREE, "--push", "50"), "--push: 50 has no unit"),
    ((*NUT, *THREE, "--across", "0"), "'0' is not larger than 0"),
    ((*NUT, "0: 0.1 by yardstick", "9 deg: 0.06"), "no instrument is called 'yardstick'"),
    (("--pitch", "16", *THREE), "or as 16 per inch"),
    (("--pitch", "?", *THREE), "--pitch: nothing was typed"),
    (("--pack", "0.5: 0.1", "0.4: 0.2", "0.45: 0.15"), "packs go up and down"),
    (("--pack", "0.5: 0.1", "0.501: 0.1"), "try packs that differ more"),
    (("--pack", "-0.5: 0.1", "0.501: 0.1"), "never thinner than nothing"),
]


@pytest.mark.parametrize(("words", "hint"), SLIPS, ids=[hint for _, hint in SLIPS])
def test_every_slip_has_its_place_and_a_way_out(words: tuple[str, ...], hint: str) -> None:
    """What was read, the limit and what to do, and the exit code of something wrong."""
    done = _run(*words)
    assert done.exit_code == 1, done.output
    assert hint in _flat(done.output)
    assert max(len(line) for line in done.output.splitlines()) <= 78
    told = json.loads(_run(*words, "--json").output)["findings"]
    assert all(slip["way_out"] and slip["where"] for slip in told)


def test_all_slips_come_at_once() -> None:
    """Five things wrong are five slips, each told with the reading or option it stands in."""
    done = _run(*NUT, "0: 0.1", "x: 0.08", "9 deg: 0,0,1", "9 deg: -1", "--want", "-1", "--json")
    told = [slip["where"] for slip in json.loads(done.output)["findings"]]
    assert told == ["reading 2", "reading 3", "reading 4", "--want"]


@pytest.mark.parametrize("words", [THREE, (*NUT, "--pack", *THREE)])
def test_what_moved_must_be_said(words: tuple[str, ...]) -> None:
    """A nut or packs: neither or both is a command that cannot be read."""
    done = _run(*words)
    assert done.exit_code == 2
    assert "--pitch of the nut, or --pack" in done.output


def test_point_off_the_line_is_named_with_its_reasons() -> None:
    """At 20 degrees the float reads as at 10: the ring did not follow, and came on after that."""
    out = _flat(
        _run(
            *NUT, "0: 0.200", "10 deg: 0.158", "20 deg: 0.158", "30 deg: 0.075", "40 deg: 0.033"
        ).output
    )
    assert "20 deg reads about the same as the one before" in out
    assert "the ring did not follow" in out
    assert "20 deg 0.158 mm 0.042 mm above the line, left out of it" in out
    assert out.count("left out of it") == 1


def test_long_marks_keep_the_columns() -> None:
    """A mark of 50 letters is named by its figure, so the table stays within 78 columns."""
    out = _run(*NUT, "0 deg: 0.1", "10.0000000000000000000000000000000000000000 deg: 0.06").output
    assert "10.000 deg" in out
    assert max(len(line) for line in out.splitlines()) <= 78


def test_two_readings_say_that_nothing_checks_them() -> None:
    """Whoever read twice is told to read a third time."""
    assert "Read a third before you trust it" in _flat(
        _run(*NUT, *THREE[:2], "--want", "0.08").output
    )


def test_readings_that_do_not_fit_put_the_advice_behind_a_doubt() -> None:
    """Three readings of a thread of 2 mm: nothing is told to be done before that is cleared up."""
    out = _flat(_run(*NUT, "0: 0.122", "10 deg: 0.067", "20 deg: 0.012").output)
    assert "these pitches would fit: 2 mm" in out
    assert "once that is cleared up: tighten" in out
    assert "by the readings' own slope: at 22.2 degrees" in out  # 0.122 / (0.110 / 20)


def test_typed_doubt_of_a_reading_and_push_count() -> None:
    """A dial good for 0.002 gives a narrower band; 400 N let four times as much yield as 50."""
    rough = walked(WalkRequest(THREE, "mm", "1.5"))
    fine = walked(WalkRequest(tuple(f"{t} +/- 0.002" for t in THREE), "mm", "1.5", push="400 N"))
    assert rough.nothing
    assert fine.nothing
    assert fine.nothing.high - fine.nothing.low < rough.nothing.high - rough.nothing.low
    assert fine.yields_mm == pytest.approx([4 * y for y in rough.yields_mm or ()])


def test_marks_set_better_give_a_narrower_band() -> None:
    """Dial exact to 0.0001, marks to 1 degree (two standard deviations): 1.645 x 0.5 / sqrt(3)."""
    marks = ("0 +/- 1 deg: 0.110", "6 +/- 1 deg: 0.085", "12 +/- 1 deg: 0.060")
    nothing = walked(WalkRequest(tuple(f"{m} +/- 0.0001" for m in marks), "mm", "1.5")).nothing
    assert nothing
    assert nothing.high - nothing.at == pytest.approx(1.645 * 0.5 / 3**0.5, rel=1e-3)


def test_chance_is_that_of_the_band() -> None:
    """scipy.stats.norm: 0.005 to 0.015 is 5 um either way, the band 1.645 standard deviations."""
    end = walked(WalkRequest(THREE, "mm", "1.5", want="0.005 to 0.015")).end
    assert end
    deviation = (end.high_mm - end.low_mm) / 2 / 1.6449
    assert end.chance == pytest.approx(norm.cdf(0.005 / deviation) * 2 - 1, abs=1e-4)


def test_answer_as_data_keeps_to_its_schema() -> None:
    """`--json` of an answer, of packs and of slips can be read by docs/json."""
    schema = json.loads((DOCS / "json" / "walk.schema.json").read_text(encoding="utf-8"))
    packs = ("--pack", "0.5: 0.12", "0.45: 0.07", "--want", "5 to 15 um")
    for words in ((*NUT, *THREE, "--across", "70"), packs, (*NUT, "0: 1,2,3")):
        jsonschema.validate(json.loads(_run(*words, "--json").output), schema)


def test_form_is_one_page_of_plain_characters() -> None:
    """At most 78 columns and 60 lines, ASCII alone, and room for four marks at least."""
    lines = _run("--sheet").output.splitlines()
    assert len(lines) <= 60
    assert max(len(line) for line in lines) <= 78
    "\n".join(lines).encode("ascii")
    assert sum(line.startswith("____") and "___________" in line for line in lines) >= 4


def test_example_of_the_page_is_what_is_printed() -> None:
    """The sheet shown in docs/walk.md is the one that its command prints."""
    page = (DOCS / "walk.md").read_text(encoding="utf-8")
    shown, _ = re.findall(r"```text\n(.*?)```", page, re.DOTALL)
    (command,) = re.findall(r"^    dryfit walk (.*--want.*)$", page, re.MULTILINE)
    words = [word.strip('"') for word in re.findall(r'"[^"]*"|\S+', command)]
    printed = _run(*words).output
    assert shown.strip() == printed[: printed.index("At the bench")].strip()


PIECE = st.sampled_from(
    ["0", "10 deg", "20 deg", "1/8 turn", ":", ":", " 0.05", " 0.1", "-", " thou", "2 flats of 0"]
)


@given(
    st.lists(st.lists(PIECE, max_size=4).map("".join), max_size=5),
    st.sampled_from([None, "1.5", "16 per inch", "0", "x"]),
    st.sampled_from([None, "0.01", "0.01 to 0.02", "-1", ""]),
)
def test_whatever_is_typed_is_answered(
    readings: list[str], pitch: str | None, want: str | None
) -> None:
    """No traceback: a sheet of at most 78 columns, or slips."""
    answer = walked(WalkRequest(tuple(readings), "mm", pitch, want))
    assert answer.answered != bool(answer.findings)
    if answer.answered:
        sheet = walk_sheet(answer)
        sheet.encode("cp437")
        assert max(len(line) for line in sheet.splitlines()) <= 78
