"""Wants that exclude each other are named, both of them, with why and a way out."""

from importlib.resources import files

import pytest

from dryfit.app.usecases.opening import FindingAnswer, open_text
from dryfit.ask.asking import Asking

DEMOS = files("dryfit.app") / "demos"


def _told(demo: str, *changes: tuple[str, str]) -> list[FindingAnswer]:
    text = (DEMOS / f"{demo}.yaml").read_text(encoding="utf-8")
    for typed, instead in changes:
        assert typed in text
        text = text.replace(typed, instead)
    return [f for f in open_text(text).findings if f.code.startswith("want.")]


def _beside(*needs: str) -> tuple[str, str]:
    """Add needs before the others."""
    return "needs:\n", "needs:\n" + "".join(f"  {need}\n" for need in needs)


FLOAT = "turns free: {kind: float, of: pinion shaft, want: 0.02 to 0.05}"


@pytest.mark.parametrize(
    ("beside", "at_odds"),
    [
        (FLOAT, True),
        (FLOAT.replace("pinion shaft", "wheel shaft"), True),  # against its nip
        (FLOAT.replace("want: 0.02", "want: 0"), True),  # just touching is not pressed
        (FLOAT.replace("0.02 to 0.05", "at most 0.05"), False),
        (FLOAT.replace("want", "state: hot, want"), False),
        (FLOAT.replace("kind: float", "kind: nip"), False),
        ("firm: {kind: preload, of: pinion shaft, want: heavy}", True),
        ("firm: {kind: preload, of: pinion shaft, want: medium to heavy}", False),
        ("firm: {kind: preload, of: pinion shaft, want: 100 to 200 N}", False),
        ("loose: {kind: preload, of: pinion shaft, want: none}", True),
    ],
)
def test_preload_of_a_pair_against_another_want(beside: str, at_odds: bool) -> None:
    """Light to medium of the pinion: no float, nothing heavier and nothing lighter goes with it.

    Newtons and words are not held against each other: that takes the bearing's rating.
    """
    told = _told("bevel-box", _beside(beside))
    assert [f.code for f in told] == ["want.at odds"] * at_odds


def test_preload_against_float_says_all() -> None:
    """Both needs by name, what each wants, why not, where and what to do."""
    (found,) = _told("bevel-box", _beside(FLOAT))
    assert found.level == "stop"
    assert "pinion preload:" in found.excerpt
    assert found.message == (
        "of 'pinion shaft' a float of 0.02 to 0.05 ('turns free') and a preload of light to medium "
        "('pinion preload') are wanted: rows that are pressed together leave no float"
    )
    assert found.way_out.startswith("take one of them out")


def test_two_preloads_in_newtons() -> None:
    """Of 100 to 200 N and of at least 300 N there is none."""
    newtons = "firm: {kind: preload, of: pinion shaft, want: 100 to 200 N}"
    for other, told in (("at least 300 N", 1), ("at least 150 N", 0)):
        changed = ("want: light to medium", f"want: {other}")
        assert len(_told("bevel-box", _beside(newtons), changed)) == told


def test_three_wants_at_odds_are_all_told() -> None:
    """Each pair by itself, so that none comes up after the first is mended."""
    heavy = "firm: {kind: preload, of: pinion shaft, want: heavy}"
    assert len(_told("bevel-box", _beside(FLOAT, heavy))) == 3


def test_what_is_offered_is_named_as_an_offer() -> None:
    """A float without limits of its own takes 0.10 to 0.30 mm from the use."""
    other = "other: {kind: float, of: cluster, want: at least 0.5 mm}"
    (found,) = _told("lay-shaft", (", want: 4 to 8 thou", ""), _beside(other))
    assert "a float of 0.0039 in to 0.0118 in, as the use offers ('cluster float')" in found.message


def test_a_spring_may_press_what_floats() -> None:
    """A wave spring pushes a bearing along; the shaft can still be moved against it."""
    play = "play: {kind: float, of: spindle, want: 0.005 to 0.05}"
    push = "push: {kind: preload, of: spindle, want: 80 to 200 N}"
    assert _told("quill", ("checks:\n", f"needs:\n  {play}\n  {push}\nchecks:\n")) == []


def test_no_unit_has_both() -> None:
    """The model says the same: of 2 000 pinions none has rows pressed together and float left."""
    text = (DEMOS / "bevel-box.yaml").read_text(encoding="utf-8")
    rebuild = open_text(text.replace("light to medium", "at least 1 N")).rebuild
    asking = Asking(rebuild, 2_000)
    preload = rebuild.needs["pinion preload"]
    floats = open_text(text.replace(*_beside(FLOAT))).rebuild.needs["turns free"]
    spread = [asking.true(need, {"cartridge shim": 0.5e-3}).true for need in (preload, floats)]
    assert (spread[0] > 1.0).any()
    assert not ((spread[0] > 1.0) & (spread[1] > 0)).any()


@pytest.mark.parametrize("want", ["light", "100 to 200 N", "at least 5 N"])
def test_preload_of_what_runs_in_no_bearing(want: str) -> None:
    """Between plain faces there are no rows, whatever is fitted."""
    preload = (
        "{kind: float, of: shaft, want: 0.05 to 0.15}",
        f"{{kind: preload, of: shaft, want: {want}}}",
    )
    (found,) = _told("feed-box", preload)
    assert found.code == "want.no rows"
    assert f"a preload of {want} is wanted of 'shaft'" in found.message
    assert "want a float of it" in found.way_out


@pytest.mark.parametrize("want", ["none", "none to light", "at most 50 N"])
def test_no_preload_is_no_contradiction(want: str) -> None:
    """Nothing pressed is what there is between plain faces."""
    preload = (
        "{kind: float, of: shaft, want: 0.05 to 0.15}",
        f"{{kind: preload, of: shaft, want: {want}}}",
    )
    assert _told("feed-box", preload) == []


@pytest.mark.parametrize("want", ["0.10 to 0.10", "0.10 +/- 0"])
def test_limits_without_room_between_are_noted(want: str) -> None:
    """Nothing made is exactly 0.10, and every chance would be nought without a word."""
    (found,) = _told("feed-box", ("want: 0.05 to 0.15", f"want: {want}"))
    assert (found.code, found.level) == ("want.no room", "note")
    assert want in found.message
