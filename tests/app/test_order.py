"""`order` as a user types it: the sheet, the strip, wishes, and what is told when there is none."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from dryfit.app.cli.main import cli
from dryfit.app.usecases.demos import text
from dryfit.app.usecases.order import OrderRequest, order


def _run(tmp_path: Path, name: str, *words: str) -> Result:
    file = tmp_path / "box.yaml"
    file.write_bytes(text(name))
    return CliRunner().invoke(cli, ["order", str(file), *words])


def test_sheet_of_the_headstock(tmp_path: Path) -> None:
    """The headstock's steps come with boxes to tick, the checks with what stops there."""
    done = _run(tmp_path, "headstock")
    assert done.exit_code == 0
    places = [done.output.index(word) for word in ("front, cup", "rear, cone", "screw up: nut")]
    assert places == sorted(places)
    assert "about one build in" in done.output
    assert "This order is the best." in done.output
    assert max(len(line) for line in done.output.splitlines()) <= 78


def test_strip_of_the_headstock(tmp_path: Path) -> None:
    """Taken apart, the spindle leaves at the nose with what is on it."""
    done = _run(tmp_path, "headstock", "--strip")
    assert "'spindle', 'distance piece', 'front, cone' in one, to nose" in " ".join(
        done.output.split()
    )
    assert "Note on the way" in done.output


def test_thickness_of_a_shim_is_read_before_it_goes_in(tmp_path: Path) -> None:
    """The shim pack is measured first, and putting it in is told as the last chance for that."""
    done = _run(tmp_path, "feed-box")
    assert "last chance to 'read shim pack'" in done.output


def test_cover_nipped_by_the_fingers_is_read_before_its_screws() -> None:
    """A lash read with the cover's screws finger tight comes before they are done up."""
    answer = order(OrderRequest(text("bevel-box-loose-cover")))
    names = [step.name for step in answer.steps]
    assert names.index("cover") < names.index("read lash, by the fingers")
    assert names.index("read lash, by the fingers") < names.index("screws of cover")


def test_wish_is_kept(tmp_path: Path) -> None:
    """A step pinned before another comes before it."""
    for pin in ("rear, cup before front, cup", "front, cup before rear, cup"):
        done = _run(tmp_path, "headstock", "--pin", pin, "--json")
        names = [step["name"] for step in json.loads(done.output)["steps"]]
        first, then = pin.split(" before ")
        assert names.index(first) < names.index(then)


@pytest.mark.parametrize(
    ("pins", "told"),
    [
        (["shaft befor cover"], "'shaft befor cover' is no wish"),
        (["cver before shaft"], "a pin names a step 'cver', which is not there"),
        (["cover before shaft"], "'shaft' wants what shuts it (to cover: 'cover')"),
        (["a before b", "c before"], "'c before' is no wish"),
    ],
)
def test_wish_that_cannot_be_is_told(tmp_path: Path, pins: list[str], told: str) -> None:
    """A wish that is misspelt or against the shapes is told with a way out, not followed."""
    done = _run(tmp_path, "feed-box", *(word for pin in pins for word in ("--pin", pin)))
    assert done.exit_code == 1
    assert told in " ".join(done.output.split())


@pytest.mark.parametrize(
    ("name", "carrier", "case"),
    [
        ("headstock", "spindle", "case"),  # dressed with piece and cone, in from the nose
        ("bevel-box", "wheel shaft", "case"),  # with its inner bearing; the wheel follows
        ("quill", "spindle", "quill"),  # both bearings and nut on it, then in from the nose
    ],
)
def test_what_is_dressed_on_the_bench_is_taken_first_and_goes_in_as_one(
    name: str, carrier: str, case: str
) -> None:
    """A shaft dressed on the bench is taken, not put on; with what is on it, it goes into case."""
    acts = {step.name: step.act for step in order(OrderRequest(text(name))).steps}
    assert acts[carrier] == "take"
    assert acts[f"{carrier} with what is on it"] == f"into {case}"
    assert list(acts.values()).count("take") == 1


def test_tight_rings_of_the_bevel_box_are_pressed_in_their_own_steps() -> None:
    """Each bearing of the box is pressed by its inner ring, for the shafts turn and their seats
    are over size; pockets are over size too, so nothing grips as the shaft goes in."""
    answer = order(OrderRequest(text("bevel-box")))
    pressed = {step.name: step.presses for step in answer.steps if step.presses}
    names = ["inner bearing", "outer bearing", "front bearing", "rear bearing"]
    assert list(pressed) == names
    for name, (one,) in pressed.items():
        assert (one.bearing, one.ring, one.rolls) == (name, "inner ring", "balls")
    acts = {step.name: step.act for step in answer.steps}
    assert {acts[name] for name in names} == {"press on"}


def test_tight_pocket_counts_when_the_shaft_goes_in() -> None:
    """A bearing dressed on its spindle meets a tight pocket as the spindle goes in: its outer ring
    takes the load then, not as it is put on the spindle."""
    told = text("quill").replace(
        b"angle: 25 deg, stops shaft going: tail,",
        b"angle: 25 deg, stops shaft going: tail, pocket: 71.985 by bore gauge,",
    )
    pressed = {step.name: step for step in order(OrderRequest(told)).steps if step.presses}
    (one,) = pressed["spindle with what is on it"].presses
    assert (one.bearing, one.ring, one.host) == ("front", "outer ring", "quill")
    assert pressed["spindle with what is on it"].act == "into quill"


def test_cup_and_cone_are_pressed_each_in_its_own_step() -> None:
    """Of a taper roller bearing the cup grips the case and the cone the spindle, step by step."""
    told = text("headstock").replace(
        b"stops shaft going: nose}",
        b"stops shaft going: nose, seat: 45.010 by micrometer, pocket: 84.975 by bore gauge}",
    )
    steps = order(OrderRequest(told)).steps
    pressed = [(step.name, step.act) for step in steps if step.presses]
    assert pressed == [("rear, cup", "press in"), ("rear, cone", "press on")]
    assert [one.rolls for step in steps for one in step.presses] == ["rollers", "rollers"]


def test_words_of_a_tight_ring(tmp_path: Path) -> None:
    """Force, warmth with its limit, and which ring takes the load stand below the step."""
    told = " ".join(_run(tmp_path, "bevel-box").output.split())
    after = told[told.index("press on: front bearing") : told.index("put on: sleeve")]
    assert "push on its inner ring, never through the balls" in after
    assert "press with about 1800 N" in after  # by hand 1.84 kN: see tests/solve/test_pressing.py
    assert "80 C at most" in after
    assert "gloves; hold it home until it is cold, else it draws off" in after


def test_ring_too_tight_for_heat_is_told(tmp_path: Path) -> None:
    """33 um on 30 mm would take (33 + 15) / (0.012 x 30) = 133 C above the room: over 120 C."""
    told = " ".join(_run(tmp_path, "bevel-box-tight-ring").output.split())
    assert "not by heat alone: it would take" in told
    assert "120 C is the most" in told


def test_ring_that_ought_to_slide_is_not_pressed(tmp_path: Path) -> None:
    """The quill's tail bearing has a spring behind it: it is eased, not pressed into its pocket."""
    told = " ".join(_run(tmp_path, "quill").output.split())
    assert "make it a sliding fit before it goes in" in told
    assert "press in: tail bearing" not in told


def test_closed_case_is_told_and_an_order_given() -> None:
    """A cluster that leaves neither way is told; it goes in whole, by an opening not drawn."""
    closed = text("lay-shaft").replace(b", opening: {front face to rear face: 3}", b"")
    answer = order(OrderRequest(closed))
    assert answer.answered
    notes = [found.message for found in answer.findings if found.code == "plan.no way"]
    assert notes[0].startswith("'cluster' does not come off along 'lay-shaft'")
    assert "cluster with what is on it" in [step.name for step in answer.steps]


def test_document_with_a_slip_has_no_order(tmp_path: Path) -> None:
    """A decimal comma stops it with line and column, and no traceback."""
    file = tmp_path / "box.yaml"
    file.write_bytes(text("feed-box").replace(b"148.70", b"148,70"))
    done = CliRunner().invoke(cli, ["order", str(file)])
    assert done.exit_code == 1
    assert "line" in done.output


WRITTEN = sorted((Path(__file__).resolve().parents[1]).glob("*/*.yaml"))


@pytest.mark.parametrize("path", WRITTEN, ids=lambda path: path.stem)
def test_units_of_all_sorts_have_an_order(path: Path) -> None:
    """Whatever unit is written, an order comes with each part once, and nothing breaks."""
    answer = order(OrderRequest(path.read_bytes()))
    assert answer.answered
    names = [step.name for step in answer.steps]
    assert len(names) == len(set(names))


def test_fits_that_were_not_measured_are_told_once() -> None:
    """The headstock's seats and pockets were not read: one note names its bearings."""
    found = order(OrderRequest(text("headstock"))).findings
    (note,) = (one.message for one in found if one.code == "plan.fits")
    assert note.endswith("how tight it sits: 'front', 'rear'")


def test_words_of_a_sleeve_that_grips(tmp_path: Path) -> None:
    """A distance piece 20 um tight is pressed square over its face: there are no balls in it."""
    typed = text("coupling-head").replace(
        b"spacer, bore: 30, outside: 38", b"spacer, bore: 30.000 by micrometer, outside: 38"
    )
    file = tmp_path / "head.yaml"
    file.write_bytes(
        typed.replace(b"shoulder to thread: 30", b"shoulder to thread: 30.020 by micrometer")
    )
    told = " ".join(CliRunner().invoke(cli, ["order", str(file)]).output.split())
    assert "press on: distance piece" in told
    assert "'distance piece' grips 'spindle': push it square, over its whole face" in told
    assert "press with about 7000 N" in told  # by hand: see tests/solve/test_pressing.py
