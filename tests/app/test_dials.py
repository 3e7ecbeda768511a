"""Whether a dial gets to what it is to read, from the sizes: each finding, and its absence."""

from dryfit.app.usecases import demos
from dryfit.app.usecases.order import OrderAnswer, OrderRequest, order

FEED_BOX = demos.text("feed-box").decode()
HOLE = ", bore: {boss to outer face: 20}"


def told(answer: OrderAnswer) -> list[str]:
    """List what is told of dials."""
    return [found.message for found in answer.findings if found.code == "plan.dial"]


def asked(text: str) -> OrderAnswer:
    """Ask for the order of a text."""
    answer = order(OrderRequest(text.encode()))
    assert answer.answered
    return answer


def test_a_cover_without_a_hole_shuts_the_dial_out() -> None:
    """A shaft between two closed ends cannot be read by a dial: told before it is built so."""
    assert HOLE in FEED_BOX
    assert told(asked(FEED_BOX)) == []
    (message,) = told(asked(FEED_BOX.replace(HOLE, "")))
    assert message == (
        "no dial gets to an end of 'shaft' when 'end float' is read (dial, to cover: 'cover' is "
        "in the way; dial, to blind end: 'case' is in the way)"
    )


def test_a_hole_too_small_for_the_dial_is_none() -> None:
    """The probe is 4 mm thick (estimate): through 3 mm it does not go, through 12 it does."""
    assert len(told(asked(FEED_BOX.replace(HOLE, HOLE.replace("20", "3"))))) == 1
    assert told(asked(FEED_BOX.replace(HOLE, HOLE.replace("20", "12")))) == []


def test_a_case_open_at_its_side_lets_it_in() -> None:
    """Through an opening a dial may get there: nothing is told that is not sure."""
    closed = FEED_BOX.replace(HOLE, "")
    opened = closed.replace("{kind: housing, ", "{kind: housing, opening: 60, ")
    assert told(asked(opened)) == []
