"""A rebuild read from its text: what is kept, and what is told where."""

import pytest

from dryfit.document.read import Document, read_document
from dryfit.model.spots import Spot
from dryfit.quantities import Size

TEXT = """\
dryfit: 1
sizes in: mm
title: Scarth Foss feed box
lines:
  feed shaft:
    from blind end to cover:
      in the case: [case.face, shim, shaft, cover.boss]
      joint: [case.joint, gasket, cover.flange]
parts:
  case: {kind: housing, material: cast iron}
  cover: {kind: cover}
  shaft: {kind: shaft}
  gasket: {kind: gasket, free: 0.25, nipped: 0.21}
  shim: {kind: shim pack}
sizes:
  case.face to case.joint: 152.360 by depth micrometer
  shaft: 148.70
settings:
  shim: {made from: [0.05, 2 of 0.10]}
needs:
  shaft float: {kind: float, of: shaft, want: 0.05 to 0.15}
checks:
  end float: {kind: end float, of: shaft}
"""


def _told(text: str) -> list[tuple[int, str]]:
    """Line and code of each finding."""
    return [(f.line, f.finding.code) for f in read_document(text).located()]


def _good() -> Document:
    document = read_document(TEXT)
    assert document.located() == ()
    return document


def test_stack_goes_through_a_bare_part_from_end_to_end() -> None:
    """A part named alone inside a stack stands for its two ends."""
    (line,) = _good().rebuild.lines.values()
    assert (line.first, line.last) == ("blind end", "cover")
    assert line.stacks[0].spots[:3] == (
        Spot("case", "face"),
        Spot("shim", "first end"),
        Spot("shim", "last end"),
    )


def test_size_keeps_the_digits_typed() -> None:
    """152.360 is known to the micrometre, not to the hundredth."""
    size = _good().rebuild.sizes["case.face to case.joint"].size
    assert isinstance(size, Size)
    assert size.text == "152.360 by depth micrometer"
    assert size.step is not None
    assert float(size.step) == 0.001


def test_drawer_is_read_with_its_counts() -> None:
    """A bare thickness is there as often as wanted, `2 of` twice."""
    stock = _good().rebuild.settings["shim"].made_from
    assert [(float(s.size.mm), s.count) for s in stock] == [(0.05, None), (0.10, 2)]


@pytest.mark.parametrize(
    ("typed", "instead", "told"),
    [
        ("kind: cover", "kind: covr", (11, "kind")),
        ("148.70", "148,70", (17, "size.comma")),
        ("want:", "wnat:", (21, "key.unknown")),
        ("end float, of: shaft", "end float", (23, "key.missing")),
        ("from blind end", "blind end", (6, "line.direction")),
        ("case.face, shim", "case.face.x, shim", (7, "spot")),
        ("2 of 0.10", "0 of 0.10", (19, "stock.count")),
        ("0.05, 2", "-0.05, 2", (19, "stock.size")),
        ("sizes in: mm", "sizes in: cm", (2, "head.system")),
        ("dryfit: 1", "dryfit: 2", (1, "head.format")),
        ("parts:", "prats:", (9, "key.unknown")),
        ("shaft: 148.70", "shaft to case.a to b: 1", (17, "size.between")),
        ("title: Scarth Foss feed box", "title: [a, b]", (3, "shape.value")),
    ],
)
def test_each_slip_is_told_on_its_line(typed: str, instead: str, told: tuple[int, str]) -> None:
    """A slip of the pen gets its line and what sort of slip it is, and nothing else is blamed."""
    assert TEXT.count(typed) >= 1
    assert _told(TEXT.replace(typed, instead, 1)) == [told]


def test_all_slips_are_told_at_once() -> None:
    """Three mistakes give three findings, in the order of the lines."""
    text = TEXT.replace("kind: cover", "kind: covr").replace("148.70", "148,70")
    told = _told(text.replace("0.05 to 0.15", "0.05 till 0.15"))
    assert [line for line, _ in told] == [11, 17, 21]


def test_without_its_head_a_text_is_told_what_to_write() -> None:
    """The two first keys are asked for by name."""
    assert {code for _, code in _told("title: x\n")} == {"head.missing"}
