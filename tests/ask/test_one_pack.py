"""Needs that ask for different packs are told with the thickness each asks for, by hand.

Feed box: room 152.36 - 3.42 + 0.21 - 148.70 = 0.45; a float of 0.05 to 0.15 asks for a pack of 0.30
to 0.40. Without the gasket 0.24 is left.
"""

from importlib.resources import files

import pytest

from dryfit.app.usecases.opening import FindingAnswer, open_text

DEMOS = files("dryfit.app") / "demos"


def _told(demo: str, *changes: tuple[str, str]) -> list[FindingAnswer]:
    text = (DEMOS / f"{demo}.yaml").read_text(encoding="utf-8")
    for typed, instead in changes:
        assert typed in text
        text = text.replace(typed, instead)
    opened = open_text(text)
    assert not opened.stopped, opened.findings
    return [f for f in opened.findings if f.code == "want.one pack"]


def _bare(want: str) -> tuple[str, str]:
    """Want a float without the gasket too."""
    need = f"bare float: {{kind: float, of: shaft, state: bare, want: {want}}}"
    return "needs:\n", f"states:\n  bare: {{left out: [gasket]}}\nneeds:\n  {need}\n"


@pytest.mark.parametrize(
    ("want", "asked"),
    [
        ("0.10 to 0.20", "0.04 mm to 0.14 mm"),
        ("0.02 to 0.12", "0.12 mm to 0.22 mm"),
        ("at least 0.10", "at most 0.14 mm"),
        ("0.50 to 0.60", "less than nothing, by 0.26 mm"),
        ("0.20 to 0.30", "0.00 mm to 0.04 mm"),
    ],
)
def test_two_floats_that_ask_for_different_packs(want: str, asked: str) -> None:
    """Each could be had alone; both needs, both thicknesses and the way out are told."""
    (found,) = _told("feed-box", _bare(want))
    assert found.message == (
        "no one 'thrust shim' meets both 'bare float' and 'shaft float': as all is typed one asks "
        f"for {asked}, the other for 0.30 mm to 0.40 mm"
    )
    assert found.level == "note"
    assert "shaft float:" in found.excerpt
    assert found.way_out.startswith("widen one of them")


def test_two_floats_that_one_pack_meets() -> None:
    """With the gasket 0.05 to 0.25 asks for 0.20 to 0.40, without it 0 to 0.01 for 0.23 to 0.24."""
    assert _told("feed-box", ("0.05 to 0.15", "0.05 to 0.25"), _bare("0 to 0.01")) == []


SECOND = (
    ("  thrust shim: {kind", "  joint shim: {kind: shim pack}\n  thrust shim: {kind"),
    ("settings:\n", "settings:\n  joint shim: {made from: [0.05]}\n"),
    ("[case.joint, gasket,", "[case.joint, joint shim, gasket,"),
)


def test_needs_on_two_packs_are_left_to_the_choice_of_both() -> None:
    """Where a second pack moves them too, no one pack is asked to do it all."""
    assert _told("feed-box", _bare("0.10 to 0.20"), *SECOND) == []


def test_warm_and_cold_of_rows_that_press() -> None:
    """A nip of a tenth hot and of hundredths cold cannot both be had from one cover shim."""
    hot = "hot nip: {kind: nip, of: wheel shaft, want: 0.1 to 0.2, state: hot}"
    (found,) = _told("bevel-box", ("needs:\n", f"needs:\n  {hot}\n"))
    assert "no one 'cover shim' meets both 'hot nip' and 'wheel nip'" in found.message


@pytest.mark.parametrize("demo", ["feed-box", "lay-shaft", "bevel-box", "headstock"])
def test_sound_demos_are_told_nothing(demo: str) -> None:
    """What can be met together is not doubted."""
    assert _told(demo) == []


def test_sizes_not_known_leave_it_open() -> None:
    """Without the shaft's length nobody can say what either asks for."""
    assert _told("feed-box", _bare("0.10 to 0.20"), ("shaft: 148.70", "shaft: not known")) == []
