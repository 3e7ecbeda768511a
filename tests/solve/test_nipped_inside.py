"""Lengths read in units where parts are nipped among themselves, by hand."""

from pathlib import Path

import pytest

from dryfit.app.usecases.opening import open_text
from dryfit.solve.luck import NoLuck
from dryfit.solve.predict import Reading, predict
from dryfit.solve.sample import sample

HERE = Path(__file__).resolve().parent.parent / "giving"
QUILL = (HERE / "quill.yaml").read_text("utf-8")

BOX = """
dryfit: 1
sizes in: mm
measured with: micrometer
lines:
  shaft:
    from blind end to cover:
      blind:    [near, shaft.left]
      far:      [shaft.right, far]
      in the case: [case.register, near, sleeve, far, cover.spigot]
      joint:    [case.joint, cover.flange]
parts:
  case: {kind: housing}
  cover: {kind: cover}
  shaft: {kind: shaft}
  near: {kind: deep groove ball, bore: 30, outside: 62, width: 16.000 +/- 0.001}
  far: {kind: deep groove ball, bore: 30, outside: 62, width: 16.000 +/- 0.001}
  sleeve: {kind: spacer}
sizes:
  case.register to case.joint: 100.00
  cover.flange to cover.spigot: -5.00
  shaft.left to shaft.right: 62.00
  sleeve: 63.00
states:
  sleeve out: {left out: [sleeve]}
checks:
  room: {kind: gap, at: sleeve, state: sleeve out}
"""


def read(text: str, check: str) -> Reading:
    """Say what a check truly finds with every size as typed."""
    opened = open_text(text)
    assert not opened.stopped, [found.message for found in opened.findings]
    rebuild = opened.rebuild
    return predict(rebuild, rebuild.checks[check], sample(rebuild, NoLuck()), packs={})


def test_room_for_a_sleeve_between_outer_rings() -> None:
    """Between register and spigot lie 100 - 5 = 95; two rings of 16 leave 63 for the sleeve."""
    found = read(BOX, "room")
    assert not found.lacking
    assert float(found.true[0]) == pytest.approx(63e-3, abs=2e-6)


def test_a_depth_does_not_grow_by_what_is_nipped() -> None:
    """The front ring lies against shoulder and register and its faces are flush under its nip.

    So the shoulder stands level with the register, but for how far the row gives: under 5 um. A
    pair nipped by h between rigid parts has no place at all, and a longest path through it grows by
    h every time round.
    """
    depth = "  depth: {kind: depth, from: quill.register, to: spindle.shoulder, held: nose}\n"
    found = read(QUILL.rstrip() + "\n" + depth, "depth")
    assert float(found.true[0]) == pytest.approx(0, abs=5e-6)


@pytest.mark.parametrize("end", ["nose", "tail"])
def test_a_depth_of_a_nipped_unit_is_the_same_held_to_either_end(end: str) -> None:
    """What is nipped fast goes to neither end."""
    depth = "  depth: {{kind: depth, from: quill.register, to: spindle.rear shoulder, held: {}}}\n"
    found = read(QUILL.rstrip() + "\n" + depth.format(end), "depth")
    assert float(found.true[0]) == pytest.approx(180e-3, abs=5e-6)
