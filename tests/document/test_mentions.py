"""A part, check or state renamed reaches every place that names it, and nothing else."""

from importlib.resources import files

import pytest

from dryfit.document.edit import Edit
from dryfit.document.mentions import change
from dryfit.document.read import read_document
from dryfit.model.rules import check
from dryfit.quantities import Place

TEXT = """\
dryfit: 1
sizes in: mm
title: The shaft of a box   # shaft stays here
lines:
  feed shaft:
    from blind end to cover:
      in the case: [case.face, shim, shaft, cover.boss]
      joint: [case.joint, gasket, 'cover.flange']
parts:
  case: {kind: housing}
  cover: {kind: cover}
  shaft: {kind: shaft}
  gasket: {kind: gasket, nipped: 0.21}
  shim: {kind: shim pack}
sizes:
  case.face to case.joint: 152.36
  cover.flange to cover.boss: -3.42
  shaft: 148.70
settings:
  shim: {made from: [0.05, 0.10]}
states:
  trial: {left out: [gasket, cover], fitted: {shim: 0.80}}
needs:
  shaft float: {kind: float, of: shaft, want: 0.05 to 0.15}
checks:
  float: {kind: end float, of: shaft, state: trial}
  depth: {kind: depth, from: case.joint, to: shaft.last end, held: blind end}
readings:
  float: 0.10
as found:
  readings: {float: 0.50}
  sizes: {shim: 0.75, shaft: 148.71}
"""


@pytest.mark.parametrize(
    ("place", "new", "lines"),
    [
        (("parts", "shaft"), "feed spindle", {7, 12, 18, 24, 26, 27, 32}),
        (("parts", "shim"), "thrust shim", {7, 14, 20, 22, 32}),
        (("parts", "cover"), "end cap", {7, 8, 11, 17, 22}),
        (("parts", "case"), "box", {7, 8, 10, 16, 27}),
        (("parts", "gasket"), "joint ring", {8, 13, 22}),
        (("checks", "float"), "end float", {26, 29, 31}),
        (("states", "trial"), "dry build", {22, 26}),
    ],
)
def test_rename_reaches_every_mention(place: Place, new: str, lines: set[int]) -> None:
    """The renamed rebuild is as sound as before, and only the lines that name it change."""
    before = read_document(TEXT)
    assert before.located(check(before.rebuild)) == ()
    done = change(TEXT, Edit("rename", place, typed=new))
    assert done.findings == ()
    after = read_document(done.text)
    assert after.located(check(after.rebuild)) == ()
    pairs = zip(TEXT.splitlines(), done.text.splitlines(), strict=True)
    assert {n for n, (old, now) in enumerate(pairs, 1) if old != now} == lines


def test_other_edits_are_spliced_as_they_are() -> None:
    """A size set by `change` touches its own line only."""
    text = (files("dryfit.app") / "demos" / "feed-box.yaml").read_text(encoding="utf-8")
    done = change(text, Edit("set", ("sizes", "shaft"), seen="148.70", typed="148.72"))
    assert done.text == text.replace("shaft: 148.70", "shaft: 148.72")
