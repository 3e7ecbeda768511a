"""Slips in a walk are told at the reading itself, with the limit and the way out, all at once."""

import pytest

from dryfit.document.read import read_document
from dryfit.model.rules import check
from dryfit.solve.doubts import doubts

TEXT = """\
dryfit: 1
sizes in: mm
lines:
  spindle:
    from blind end to cover:
      in the case: [case.face, shim, shaft, cover.boss]
      joint: [case.joint, cover.flange]
parts:
  case: {kind: housing}
  cover: {kind: cover}
  shaft: {kind: shaft}
  shim: {kind: shim pack}
  nut: {kind: nut, thread: M45x1.5}
sizes: {case.face to case.joint: 100.00, cover.flange to cover.boss: -1.38, shaft: 98.00}
settings:
  shim: {made from: [0.05, 0.10]}
checks:
  float: {kind: end float, of: shaft}
  pack: {kind: thickness, of: shim}
walks:
"""


def _told(walk: str) -> list[tuple[str, str, str]]:
    """Give code, where in the walk, and message with the way out."""
    document = read_document(f"{TEXT}  {walk}\n")
    found = [*document.findings, *check(document.rebuild)]
    return [
        (f.code, str(f.place[-1]), f"{f.message} -> {f.way_out}")
        for f in found
        if f.place[0] == "walks"
    ]


def test_sound_walk_is_read_without_a_word() -> None:
    """Three packs and three floats, in any unit of length, each by its own instrument."""
    walk = "float: {with: shim, 0.50: 0.112, 20 thou: 4 thou, 0.60: 0.21 by test indicator}"
    assert _told(walk) == []
    written = read_document(f"{TEXT}  {walk}\n").rebuild.walks["float"]
    assert written.with_ == "shim"
    assert [(step.key, step.read.text) for step in written.steps] == [
        ("0.50", "0.112"),
        ("20 thou", "4 thou"),
        ("0.60", "0.21 by test indicator"),
    ]


SLIPS = [
    ("float: {with: shim, 0.50: 0.1, 0.5: 0.2, 0.6: 0.2}", "walk.same mark", "0.5", "as 0.50"),
    ("float: {with: shim, 0.50: 0.1, 0.55: -0.2, 0.6: 0}", "reading.negative", "0.55", "of -0.2"),
    ("float: {with: shim, -0.50: 0.1, 0.55: 0.2, 0.6: 0}", "walk.minus", "-0.50", "of -0.50"),
    ("float: {with: shim, 0.50: 12, 0.55: 0.2, 0.6: 0.3}", "walk.far", "0.50", "than 5 mm"),
    ("float: {with: shim, 0.50: 1 N, 0.55: 0.2, 0.6: 0.3}", "size.unit", "0.50", "no unit"),
    ("float: {with: shim, 0.50: 1 deg, 0.55: 0.2, 0.6: 0}", "size.unit", "0.50", "no unit"),
    ("float: {with: shim, 0.50: , 0.55: 0.2, 0.6: 0.3}", "size.wanted", "0.50", "size is wanted"),
    ("float: {with: shim, 0,50: 0.1}", "name.no colon", "0", "has no value"),
    ("float: [0.50, 0.1]", "shape.group", "float", "keys with values"),
    ("float: {with: shim, push: 50 N, 0.55: 0.2}", "key.unknown", "push", "PACK: FLOAT"),
    ("float: {with: shmi, 0.50: 0.1, 0.55: 0.2, 0.6: 0.3}", "walk.with", "with", "mean 'shim'"),
    ("float: {with: case, 0.50: 0.1, 0.55: 0.2, 0.6: 0.3}", "walk.with", "with", "no setting"),
    ("float: {0.50: 0.1, 0.55: 0.2, 0.6: 0.3}", "walk.with", "float", "add with: NAME"),
    ("flaot: {with: shim, 0.50: 0.1, 0.55: 0.2, 0.6: 0}", "check.unknown", "flaot", "'float'"),
    ("pack: {with: shim, 0.50: 0.1, 0.55: 0.2, 0.6: 0.3}", "walk.kind", "pack", "only an end"),
    ("float: {with: shim, 0 deg: 0.1, 6 deg: 0.08}", "walk.mark", "0 deg", "no thickness"),
    ("float: {with: nut, 0.5: 0.1, 0.6: 0.08}", "walk.mark", "0.5", "no mark"),
    ("float: {with: nut, 0: 0.1, 2 flats: 0.08}", "walk.parts", "2 flats", "how many"),
    ("float: {with: nut, 0: 0.1, 9 deg: 0.06, 6 deg: 0.08}", "walk.order", "6 deg", "turned back"),
    ("float: {with: shim, 0.50: 0.1}", "walk.few", "float", "one reading so far"),
    ("float: {with: shim}", "walk.few", "float", "no reading yet"),
]


@pytest.mark.parametrize(("walk", "code", "where", "words"), SLIPS)
def test_slip_is_told_where_it_stands(walk: str, code: str, where: str, words: str) -> None:
    """Each slip has its own place, says what was read, and what to do."""
    found = [(at, text) for told, at, text in _told(walk) if told == code]
    assert [at for at, _ in found] == [where]
    assert words in found[0][1]
    assert not found[0][1].endswith("-> ")


def test_all_slips_of_a_walk_are_told_at_once() -> None:
    """Name, check, pack and reading wrong together are four findings."""
    told = _told("flaot: {with: shmi, 0.50: 0.1, 0.5: -0.2, 0.6: 0.3}")
    assert {code for code, *_ in told} == {
        "check.unknown",
        "walk.with",
        "walk.same mark",
        "reading.negative",
    }


def test_instrument_nobody_knows_is_told_at_its_reading() -> None:
    """A misspelt dial is named with its own pack, before anything is worked out with it."""
    walk = "float: {with: shim, 0.50: 0.1, 0.55: 0.15 by dail indicator, 0.60: 0.2}"
    (told,) = doubts(read_document(f"{TEXT}  {walk}\n").rebuild)
    assert told.place == ("walks", "float", "0.55")
    assert "dail indicator" in told.message
