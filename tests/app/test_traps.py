"""Traps of assembly, found from the sizes of the coupling head: each comes and goes with a size."""

from collections.abc import Mapping

import pytest

from dryfit.app.usecases.demos import text
from dryfit.app.usecases.order import OrderRequest, order
from dryfit.app.usecases.ordering.answers import OrderAnswer, StepAnswer

HEAD = text("coupling-head").decode()


def changed(*pairs: tuple[str, str], pins: tuple[str, ...] = ()) -> OrderAnswer:
    """Order the coupling head with some of its text changed."""
    typed = HEAD
    for old, new in pairs:
        assert typed.count(old) == 1, old
        typed = typed.replace(old, new)
    return order(OrderRequest(typed.encode(), pins))


def steps(answer: OrderAnswer) -> Mapping[str, StepAnswer]:
    """Give the steps by name, in their order."""
    return {step.name: step for step in answer.steps}


def notes(answer: OrderAnswer, code: str) -> list[str]:
    """List what is told under a code."""
    return [found.message for found in answer.findings if found.code == code]


WIDE_COVER = ("bore: {flange to outer face: 34}", "bore: {flange to outer face: 59}")
LARGE_NUT = ("torque: 40 N.m, outside: 45", "torque: 40 N.m, outside: 52")
FLANGED = (
    ("first end to shoulder: 38", "first end to flange: 60, flange to shoulder: 38"),
    ("spindle.first end: -40", "spindle.first end: -40\n  spindle.shoulder to spindle.flange: -20"),
)


def test_nut_is_tightened_before_the_cover() -> None:
    """Putting the cover on is told as the last chance to tighten the nut. By hand: nut 45, socket
    45 + 2 x 6 = 57 across; the cover has 34."""
    told = steps(changed())
    assert "tighten nut" in told["cover"].hides
    assert [*told].index("nut") < [*told].index("cover")


def test_cover_that_lets_the_socket_through_is_no_last_chance() -> None:
    """With 59 in the cover the socket of 57 still gets in: the dust ring shuts it out."""
    told = steps(changed(WIDE_COVER))
    assert "tighten nut" not in told["cover"].hides
    assert "tighten nut" in told["dust ring"].hides


def test_nut_too_large_for_its_bore_is_tightened_on_the_bench() -> None:
    """A nut of 52 wants 64 for its socket and has 62 in the case: the spindle is dressed on the
    bench, nut and all, and goes in as one."""
    answer = changed(LARGE_NUT)
    names = [*steps(answer)]
    assert names.index("nut") < names.index("spindle with what is on it")
    assert notes(answer, "plan.spanner") == []
    assert "spindle with what is on it" not in steps(changed())


def test_nut_that_no_spanner_reaches_is_told() -> None:
    """If a flange of 60 also keeps the dressed spindle from going in past the lip of 46, no spanner
    ever gets to the nut: that is told, with what is in the way from each side."""
    (note,) = notes(changed(LARGE_NUT, *FLANGED), "plan.spanner")
    assert note.startswith("no spanner gets to 'nut' as it goes on (socket, to drive: 'case'")
    assert "hook spanner, from outside: 'case'" in note
    assert notes(changed(*FLANGED), "plan.spanner") == []


RING = ("dust ring:      {kind: spacer, bore: 25", "dust ring:      {kind: spacer, bore: 32")


def test_ring_goes_on_before_the_key_it_does_not_pass() -> None:
    """A ring of 25 does not go over the key, which is 25 + 2 x 3.3 = 31.6 across: it is on before,
    and a wish for the other way round is refused. One of 32 passes, and the wish is kept."""
    told = steps(changed())
    assert [*told].index("dust ring") < [*told].index("key")
    (mind,) = (line for line in told["key"].mind if line.startswith("after"))
    assert "'dust ring'" in mind
    assert "31.6 mm" in mind
    wish = ("key before dust ring",)
    assert not changed(pins=wish).answered
    wide = changed(RING, pins=wish)
    assert [*steps(wide)].index("key") < [*steps(wide)].index("dust ring")
    assert all("'dust ring'" not in line for line in steps(changed(RING))["key"].mind)


SUNK = (
    ("spindle.shoulder to spindle.keyway: 95", "spindle.shoulder to spindle.keyway: 67"),
    ("spindle.keyway end: 120", "spindle.keyway end: 78"),
)


def test_key_inside_the_case_that_its_nut_cannot_pass_is_told() -> None:
    """A key beside the nut, under the case: the nut does not get over it, nor the key out past the
    case. Dressed on the bench it goes; with a flange that keeps it out there is no way at all, and
    by how much the key is too high is told.

    By hand: 14.1 + 3.3 over the key, less 15 - 0.65 x 1.5 at the core of the nut, is 3.4.
    """
    names = [*steps(changed(*SUNK))]
    assert names.index("nut") < names.index("key") < names.index("spindle with what is on it")
    told = notes(changed(*SUNK, *FLANGED), "plan.no way")
    (nut,) = (note for note in told if note.startswith("'nut'"))
    assert "'key' (a key 3.4 mm higher than its bore)" in nut


def test_gap_is_read_with_the_cover_on_before_the_shim_goes_in() -> None:
    """The gap that decides the shim is read before it goes in, with the cover put on for it; to put
    the shim in is the last chance. Read of the finished unit it decides nothing."""
    told = steps(changed())
    check = told["read gap under the cover"]
    assert any(
        line.startswith("put on 'cover' for it, without 'cover shim'") for line in check.mind
    )
    assert "it decides 'cover shim', made up after it" in check.mind
    assert "read gap under the cover" in told["cover shim"].hides
    names = [*told]
    assert names.index("outer bearing") < names.index("read gap under the cover")
    late = steps(changed(("at: cover, state: no shim", "at: cover")))
    assert [*late].index("cover") < [*late].index("read gap under the cover")
    assert late["read gap under the cover"].mind == ()


@pytest.mark.parametrize(
    ("thread", "land"),
    [
        ("M30x1.5", "28.2"),  # over the core, 30 - 1.2269 x 1.5 = 28.16 (ISO 68-1, external)
        ("M30x1.5", "30"),  # over the crests
        ("M30x1.5", "29.2"),  # over worn flanks
        ("M30x3.5", "25.7"),  # over the core of the coarse one, 30 - 1.2269 x 3.5 = 25.71
        ("M30x1.5", "27"),  # a slip: less than any thread of that name
    ],
)
def test_nut_holds_the_spindle_whatever_its_thread_was_measured_over(
    thread: str, land: str
) -> None:
    """Over core or crests: the nut has to be screwed off, and until then all under it stays on and
    the spindle does not go out through it."""
    answer = changed(
        ("thread: M30x1.5", f"thread: {thread}"), ("to step: 28.2", f"to step: {land}")
    )
    assert steps(answer)["nut"].act == "screw up"
    off = [one.parts for one in answer.strip]
    assert off.index(("nut",)) < off.index(("outer bearing",))
    assert all("spindle" not in parts for parts in off[: off.index(("nut",))])


def test_ring_in_the_place_of_the_nut_just_slides() -> None:
    """A plain ring where the nut was is pushed off; it is the nut's kind that is screwed."""
    plain = changed(
        (
            "{kind: nut, thread: M30x1.5, torque: 40 N.m, outside: 45}",
            "{kind: spacer, bore: 30, outside: 45}",
        )
    )
    assert steps(plain)["nut"].act == "put on"


FURTHER_OUT = (
    ("spindle.step: 86", "spindle.step: 95"),
    ("spindle.keyway: 95", "spindle.keyway: 103"),
)
WIDE_RING = ("bore: 25, outside: 40", "bore: 25, outside: 90")


def test_screws_are_done_up_before_what_hides_their_heads() -> None:
    """A dust ring of 90 lies before screws on a circle of 84: they are done up first, and that is
    told as the last chance for that. One of 40 leaves their heads free."""
    wide, narrow = (steps(changed(*FURTHER_OUT, *more)) for more in ((WIDE_RING,), ()))
    assert [*wide].index("screws of cover") < [*wide].index("dust ring")
    assert "tighten screws of cover" in wide["dust ring"].hides
    assert "tighten screws of cover" not in narrow["dust ring"].hides
    wish = ("dust ring before screws of cover",)
    assert not changed(*FURTHER_OUT, WIDE_RING, pins=wish).answered
    assert changed(*FURTHER_OUT, pins=wish).answered


def test_cover_is_held_by_its_screws_from_the_document() -> None:
    """Taken apart, the screws come off before their cover; it does not come off with them in."""
    off = [one.parts for one in changed().strip]
    assert off.index(("screws of cover",)) < off.index(("cover",))


def seal(across: int) -> tuple[str, ...]:
    """Say what to mind as a cover with a seal for a shaft of this size goes on."""
    line = f"  seal: {{kind: seal, on: spindle, shaft: {across}, outside: 45}}\n"
    told = changed(("sizes:\n  case.register", f"{line}sizes:\n  case.register"))
    return steps(told)["cover with what is on it"].mind


def test_lip_is_covered_where_it_passes_thread_and_keyway() -> None:
    """A lip for 27 rubs over the keyway of the land of 25 and the thread of 28.2 on the way, one
    for 29 only over the thread."""
    small, large = " ".join(seal(27)), " ".join(seal(29))
    assert "the lip of 'seal' passes a thread of 'spindle'" in small
    assert "passes a keyway of 'spindle'" in small
    assert "passes a thread of 'spindle'" in large
    assert "keyway" not in large


def test_lip_is_covered_where_it_passes_a_groove() -> None:
    """A groove of 23 in the land of 25 is an edge to the lip of 27, besides the keyway."""
    line = "  seal: {kind: seal, on: spindle, shaft: 27, outside: 45}\n"
    told = changed(
        ("sizes:\n  case.register", f"{line}sizes:\n  case.register"),
        ("step to last end: 25", "step to near: 25, near to far: 23, far to last end: 25"),
        ("spindle.step: 86", "spindle.step: 86\n  spindle.step to spindle.near: 6\n  spindle.step to spindle.far: 8"),  # noqa: E501
    )  # fmt: skip
    assert "passes a groove of 'spindle'" in " ".join(steps(told)["cover with what is on it"].mind)
    assert "groove" not in " ".join(seal(27))


def test_o_ring_is_drawn_over_the_mouth_of_its_bore() -> None:
    """A cover with an O-ring is told to be drawn past the edge of the case; one without is not."""
    corded = changed(("spigot: 62, screw circle", "o-ring holds: 50 N, spigot: 62, screw circle"))
    edge = "the O-ring of 'cover' passes a step of 'case': cover the edge"
    assert edge in steps(corded)["cover"].mind
    assert edge not in steps(changed())["cover"].mind
