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
        ("bevel-box", "wheel shaft", "case"),  # wheel too large for either bore: in as it is
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


def test_closed_case_is_told_and_an_order_given() -> None:
    """A cluster that leaves neither way is told; it goes in whole, by an opening not drawn."""
    answer = order(OrderRequest(text("lay-shaft")))
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
