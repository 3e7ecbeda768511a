"""Sizes that are far out are told: one in the other unit by name, odd floats and lash by amount."""

import pytest

from dryfit.app.usecases.opening import FindingAnswer, open_text

BOX = """\
dryfit: 1
sizes in: mm
measured with: micrometer
lines:
  input:
    from left to right:
      in the case: [case.left, shim, shaft, lid.boss]
      joint: [case.face, lid.flange]
  middle:
    from left to right:
      plain: [case.mid left, washer, cluster, case.mid right]
parts:
  case: {kind: housing}
  lid: {kind: cover}
  shim: {kind: shim pack}
  shaft: {kind: shaft}
  washer: {kind: thrust washer}
  cluster: {kind: cluster}
meshes:
  pair: {kind: spur, pinion: shaft, wheel: cluster, pinion teeth: 18, wheel teeth: 54, module: 2,
         centre distance: 72.05, lash: 0.08}
sizes:
  case.left to case.face: 120.00
  lid.flange to lid.boss: -5.00
  shaft: 114.50
  case.mid left to case.mid right: 98.00
  washer: 2.00
  cluster: 95.90
settings:
  shim: {made from: [0.05, 0.10], fitted: 0.40}
checks:
  lash: {kind: backlash, mesh: pair}
"""
"""Shaft: 120.00 - 5.00 - 0.40 - 114.50 = 0.10; cluster: 98.00 - 2.00 - 95.90 = 0.10."""

CODES = ("size.other unit", "line.long float", "line.too long", "mesh.apart", "setting.thick")


def _told(*changes: tuple[str, str]) -> dict[str, FindingAnswer]:
    text = BOX
    for typed, instead in changes:
        assert typed in text, typed
        text = text.replace(typed, instead)
    opened = open_text(text)
    assert [f.message for f in opened.findings if f.level == "stop"] == []
    return {f.code: f for f in opened.findings if f.code in CODES}


def test_a_sound_box_has_none() -> None:
    """Two floats of 0.10."""
    assert _told() == {}


@pytest.mark.parametrize(
    ("typed", "instead", "amount"),
    [
        ("  shaft: 114.50", "  shaft: 4.508", "'shaft' has 110.09 mm of float"),
        ("  washer: 2.00", "  washer: 0.079", "'cluster' has 2.02 mm of float"),
        ("case.face: 120.00", "case.face: 4.7244", "'input' are 115.18 mm too long"),
    ],
)
def test_inches_in_a_metric_text_are_named(typed: str, instead: str, amount: str) -> None:
    """4.508 in are 114.503, 0.079 in 2.007, 4.7244 in 120.00; as mm they leave the odd amounts."""
    told = _told((typed, instead))
    figure = instead.split()[-1]
    found = told["size.other unit"]
    assert set(told) == {"size.other unit"}
    assert amount in found.message
    assert f"write {figure} in" in found.way_out
    assert found.level == "note"
    assert found.line == next(
        n
        for n, text in enumerate(BOX.splitlines(), 1)
        if text.strip().startswith(typed.strip()) or typed in text
    )


INCHES = (
    ("sizes in: mm", "sizes in: inch"),
    ("120.00", "4.7244"),
    ("-5.00", "-0.1969"),
    ("114.50", "4.5079"),
    ("98.00", "3.8583"),
    ("2.00", "0.0787"),
    ("95.90", "3.7756"),
    ("fitted: 0.40", "fitted: 0.0157"),
    ("[0.05, 0.10]", "[2 thou]"),
    ("module: 2,", "module: 2 mm,"),
    ("72.05", "2.8366"),
    ("lash: 0.08", "lash: 3 thou"),
)


def test_millimetres_in_an_inch_text_are_named() -> None:
    """The same box in inches is sound; a shaft of 114.5 typed there is not."""
    assert _told(*INCHES) == {}
    told = _told(*INCHES, ("  shaft: 4.5079", "  shaft: 114.5"))
    assert "write 114.5 mm" in told["size.other unit"].way_out


def test_a_size_with_its_unit_is_not_suspected() -> None:
    """4.508 mm is what was meant, so the float is odd for another reason."""
    assert set(_told(("  shaft: 114.50", "  shaft: 4.508 mm"))) == {"line.long float"}


@pytest.mark.parametrize(
    ("cluster", "code"),
    [("91.10", None), ("90.90", "line.long float"), ("96.90", None), ("97.10", "line.too long")],
)
def test_a_float_no_shaft_is_built_with_is_told(cluster: str, code: str | None) -> None:
    """96.00 of room: a float of 5 and an excess of 1 are the limits."""
    told = _told(("cluster: 95.90", f"cluster: {cluster}"))
    assert set(told) == ({code} if code else set())
    if code:
        assert "wrong sign" in told[code].way_out


def test_a_cover_that_stands_off_by_five_is_told() -> None:
    """A pack of 5.50: 5.50 - 0.40 - 0.10 = 5.00 too long, and no shims are missing a unit."""
    told = _told(("fitted: 0.40", "fitted: 5.50"))
    assert "5.00 mm too long for their room" in told["line.too long"].message


@pytest.mark.parametrize(("pack", "thick"), [("10", False), ("10.05", True), ("100", True)])
def test_a_pack_thicker_than_shims_are_stacked_is_told(pack: str, thick: bool) -> None:
    """Beyond 10 mm it is a spacer, or a slip."""
    assert ("setting.thick" in _told(("fitted: 0.40", f"fitted: {pack}"))) is thick


def test_a_lash_that_is_large_is_not_yet_out_of_mesh() -> None:
    """Opened by 1.90: 2 tan 20 of it are 1.4 of lash; half a pitch of module 2 is 3.1."""
    assert "mesh.apart" not in _told(("centre distance: 72.05", "centre distance: 73.95"))


def test_a_lash_of_more_than_half_a_pitch_is_told() -> None:
    """Lash 3.20 as they stand; half a pitch of module 2 is 3.14."""
    assert "mesh.apart" not in _told(("lash: 0.08", "lash: 3.00"))
    told = _told(("lash: 0.08", "lash: 3.20"))["mesh.apart"]
    assert "half a pitch (3.14 mm)" in told.message


SPRUNG = (
    ("[case.left, shim, shaft, lid.boss]", "[case.left, shim, shaft, wave, lid.boss]"),
    (
        "  shaft: {kind: shaft}",
        "  shaft: {kind: shaft}\n  wave: {kind: spring washer, free: 4.0, "
        "force: 100 N, at: 2.5, solid: 1.5}",
    ),
    ("  shaft: 114.50", "  shaft: 112.10"),
)


def test_a_spring_gives_up_its_height() -> None:
    """120.00 - 5.00 - 0.40 - 112.10 = 2.50 for a spring 4.00 high: that is not too long."""
    assert _told(*SPRUNG) == {}


def test_a_lash_read_far_out_is_taken_back_to_the_teeth() -> None:
    """Lash 1.00 at the pitch radius of 54 reads 4.00 at 216, and is still 1.00 at the teeth."""
    far = (
        "lash: {kind: backlash, mesh: pair}",
        "lash: {kind: backlash, mesh: pair, at radius: 216}",
    )
    assert "mesh.apart" not in _told(("lash: 0.08", "lash: 1.00"), far)
    assert "mesh.apart" in _told(("lash: 0.08", "lash: 3.20"), far)


@pytest.mark.parametrize(
    ("typed", "instead"),
    [
        ("fitted: 0.40", "fitted: -0.40"),
        ("checks:\n", "states:\n  thin: {fitted: {shim: -3}}\nchecks:\n"),
    ],
)
def test_a_pack_of_less_than_nothing_is_refused(typed: str, instead: str) -> None:
    """In the unit as it is, and in a state."""
    assert typed in BOX
    found = [f for f in open_text(BOX.replace(typed, instead, 1)).findings if f.level == "stop"]
    assert [f.code for f in found] == ["size.not positive"]
    assert "without a sign" in found[0].way_out
