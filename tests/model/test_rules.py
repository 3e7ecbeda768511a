"""What does not fit together in a rebuild is told once, on its line, with a way out."""

import pytest

from dryfit.document.read import read_document
from dryfit.model.rules import check

TEXT = """\
dryfit: 1
sizes in: mm
used for: {warmer than casing: 5 K}
lines:
  feed shaft:
    from blind end to cover:
      in the case: [case.face, shim, shaft, cover.boss]
      joint: [case.joint, gasket, cover.flange]
parts:
  case: {kind: housing}
  cover: {kind: cover}
  shaft: {kind: shaft}
  gasket: {kind: gasket, nipped: 0.21}
  shim: {kind: shim pack}
sizes:
  case.face to case.joint: 152.36
  shaft: 148.70
settings:
  shim: {made from: [0.05, 0.10]}
states:
  trial: {left out: [gasket], fitted: {shim: 0.80}}
  running: {from: used for}
needs:
  shaft float: {kind: float, of: shaft, want: 0.05 to 0.15}
checks:
  gap: {kind: gap, at: cover, state: trial}
  depth: {kind: depth, from: case.joint, to: shaft.last end, held: blind end}
readings:
  gap: 0.56
as found:
  readings: {gap: 0.50}
  sizes: {shim: 0.75, shaft: 148.71}
"""


def _told(text: str) -> list[tuple[int, str]]:
    document = read_document(text)
    return [(f.line, f.finding.code) for f in document.located(check(document.rebuild))]


def test_a_sound_rebuild_has_no_findings() -> None:
    """Nothing is said where nothing is wrong."""
    assert _told(TEXT) == []


@pytest.mark.parametrize(
    ("typed", "instead", "told"),
    [
        ("shim, shaft, cover.boss", "shim, shaftt, cover.boss", (7, "part.unknown")),
        ("kind: housing", "kind: spacer", (9, "part.no housing")),
        ("cover: {kind: cover}", "cover: {kind: housing}", (11, "part.two housings")),
        ("shaft, cover.boss", "shaft, shim, cover.boss", (7, "stack.part twice")),
        ("case.joint, gasket", "case.joint, case.joint, gasket", (8, "stack.spot twice")),
        ("case.face to case.joint", "case.face to shaft.end", (16, "size.two parts")),
        ("case.face to case.joint", "case.face to case.face", (16, "size.nowhere")),
        ("case.face to case.joint", "cse.face to cse.joint", (16, "part.unknown")),
        ("shaft: 148.70", "shaft: 0", (17, "size.not positive")),
        ("shaft: 148.70", "gasket: 0.21", (17, "size.gasket")),
        ("shaft: 148.70", "shim: 0.35", (17, "size.setting")),
        ("shim: {made", "shaft: {made", (19, "setting.kind")),
        ("{made from: [0.05, 0.10]}", "{}", (19, "setting.way")),
        ("0.10]}", "0.10], cut to size: 0.01}", (19, "setting.way")),
        ("left out: [gasket]", "left out: [gaskit]", (21, "part.unknown")),
        ("fitted: {shim:", "fitted: {shims:", (21, "part.unknown")),
        ("trial: {", "built: {", (21, "state.built")),
        ("from: used for", "from: running", (22, "state.from")),
        ("used for: {warmer than casing: 5 K}", "used for: {kind: box}", (22, "state.cold")),
        ("of: shaft, want", "of: shafts, want", (24, "part.unknown")),
        ("state: trial", "state: trail", (26, "state.unknown")),
        ("at: cover", "at: shaft", (26, "gap.where")),
        ("held: blind end", "held: blind", (27, "end.unknown")),
        ("  gap: 0.56", "  gapp: 0.56", (29, "check.unknown")),
        ("shaft: 148.71", "shafts: 148.71", (32, "size.unknown")),
        ("nipped: 0.21", "free: 0.20, nipped: 0.21", (13, "gasket.nipped")),
        ("nipped: 0.21", "nipped: 0", (13, "size.not positive")),
        ("want: 0.05 to 0.15", "want: -0.05 to 0.02", (24, "want.negative")),
        ("  gap: 0.56", "  gap: -0.56", (29, "reading.negative")),
        ("{gap: 0.50}", "{gap: -0.50}", (31, "reading.negative")),
        ("shim: 0.75", "shim: -0.75", (32, "size.not positive")),
        ("shaft: 148.71", "shaft: 0", (32, "size.not positive")),
        ("  case: {kind", "  odd: {kind: spacer}\n  case: {kind", (10, "part.idle")),
        ("[case.face, shim", "[case.fase, shim", (7, "spot.unsized")),
        ("  shim: {kind: shim pack}", "  shim.1: {kind: shim pack}", None),
    ],
)
def test_each_contradiction_is_told(typed: str, instead: str, told: tuple[int, str] | None) -> None:
    """The first thing told is the one that was spoilt; what hangs on it may follow."""
    assert TEXT.count(typed) >= 1
    found = _told(TEXT.replace(typed, instead, 1))
    if told is None:
        assert (14, "part.name") in found
    else:
        assert told in found


def test_what_could_not_be_read_is_not_blamed_twice() -> None:
    """A part with a misspelt kind is told once, not again wherever it is named."""
    assert _told(TEXT.replace("kind: cover}", "kind: covr}")) == [(11, "kind")]
