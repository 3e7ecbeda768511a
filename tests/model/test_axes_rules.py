"""Slips in how two lines lie are told at their own key, with the way out."""

import pytest

from dryfit.document.read import read_document
from dryfit.model.rules import check
from dryfit.quantities import Place

TEXT = """\
dryfit: 1
sizes in: mm
lines:
  spindle:
    from left to right:
      stack: [case.face, spindle, case.end]
  lay-shaft:
    from left to right:
      stack: [case.lay face, lay, case.lay end]
parts:
  case: {kind: housing}
  spindle: {kind: shaft}
  lay: {kind: shaft}
sizes: {case.face to case.end: 100, case.lay face to case.lay end: 90, spindle: 99, lay: 89}
"""
MESH = """\
meshes:
  first: {kind: spur, pinion: spindle, wheel: lay, pinion teeth: 18, wheel teeth: 54, module: 2,
          centre distance: 72.05}
"""
LEVEL = "level: case.face, other level: case.lay face"
CROSS = "crossing: case.face, other crossing: case.lay face"


def _told(axes: str, more: str = "") -> list[tuple[str, Place, str]]:
    document = read_document(f"{TEXT}{more}axes:\n  pair: {axes}\n")
    found = [*document.findings, *check(document.rebuild)]
    return [(f.code, f.place[2:], f"{f.message} -> {f.way_out}") for f in found]


@pytest.mark.parametrize(
    "axes",
    [
        f"{{kind: parallel, line: spindle, other: lay-shaft, centre distance: 72, {LEVEL}}}",
        f"{{kind: square, line: spindle, other: lay-shaft, {CROSS}}}",
        f"{{kind: square, line: spindle, other: lay-shaft, centre distance: 52, {CROSS}}}",
    ],
)
def test_sound_pair_is_read_without_a_word(axes: str) -> None:
    """Side by side or at right angles, meeting or not."""
    assert _told(axes) == []


def test_mesh_says_how_far_the_centres_are_apart() -> None:
    """Without a mesh the distance of parallel lines has to be typed, with one it need not."""
    axes = f"{{kind: parallel, line: spindle, other: lay-shaft, {LEVEL}}}"
    ((code, _, told),) = _told(axes)
    assert code == "axes.apart"
    assert told.endswith("add centre distance: 72.05")
    assert _told(axes, MESH) == []


SLIPS = [
    ("parallel, line: spindel, other: lay-shaft, centre distance: 72", "line.unknown", "line",
     "did you mean 'spindle'?"),
    ("parallel, line: spindle, other: spindle, centre distance: 72", "axes.itself", "other",
     "name the other line"),
    ("parallel, line: spindle, other: lay-shaft, centre distance: 0", "size.not positive",
     "centre distance", "larger than 0"),
    ("parallel, line: spindle, other: lay-shaft, centre distance: -72", "size.not positive",
     "centre distance", "cannot be -72 apart"),
]  # fmt: skip


@pytest.mark.parametrize(("axes", "code", "key", "words"), SLIPS)
def test_slip_is_told_at_its_key(axes: str, code: str, key: str, words: str) -> None:
    """A line misspelt or beside itself, a distance that none can be."""
    ((found, place, told),) = _told(f"{{kind: {axes}, {LEVEL}}}")
    assert (found, place) == (code, (key,))
    assert words in told


@pytest.mark.parametrize(
    ("spots", "key", "words"),
    [
        ("level: case.fase, other level: case.lay face", "level", "did you mean 'face'?"),
        ("level: lay.first end, other level: case.lay face", "level", "name a spot on the case"),
        ("level: case.face, other level: cese.lay face", "other level", "did you mean 'case'?"),
    ],
)
def test_spot_by_which_lines_lie_is_known(spots: str, key: str, words: str) -> None:
    """A spot that nothing places, of another line, or of no part is told."""
    axes = f"{{kind: parallel, line: spindle, other: lay-shaft, centre distance: 72, {spots}}}"
    ((_, place, told),) = _told(axes)
    assert place == (key,)
    assert words in told


def test_two_words_for_one_pair() -> None:
    """Two lines lie to each other in one way."""
    axes = f"{{kind: parallel, line: spindle, other: lay-shaft, centre distance: 72, {LEVEL}}}"
    turned = f"{{kind: square, line: lay-shaft, other: spindle, {CROSS}}}".replace(
        CROSS, "crossing: case.lay face, other crossing: case.face"
    )
    ((code, _, told),) = _told(f"{axes}\n  again: {turned}")
    assert code == "axes.twice"
    assert "'pair' already" in told
