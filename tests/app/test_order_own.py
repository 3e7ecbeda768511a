"""Own steps, services and wishes of a document in `order`: where each is laid, and why."""

import pytest

from dryfit.app.usecases.demos import text
from dryfit.app.usecases.opening import FindingAnswer
from dryfit.app.usecases.order import OrderRequest, order
from dryfit.app.usecases.ordering.answers import OrderAnswer, StepAnswer
from dryfit.app.words.order import to_mind, what_done
from dryfit.app.words.pressing import press_words

GREASE = text("idler").decode()
FACE = "flange to outer face: 80}"
PACK = "pack the cover bearing"


def _order(document: str) -> OrderAnswer:
    return order(OrderRequest(document.encode()))


def _names(document: str) -> list[str]:
    answer = _order(document)
    assert answer.answered
    return [step.name for step in answer.steps]


def _with(demo: str, more: str) -> str:
    return text(demo).decode() + more


def _step(document: str, name: str) -> StepAnswer:
    return next(step for step in _order(document).steps if step.name == name)


def test_grease_goes_in_last_before_the_cover() -> None:
    """The cover hides the row, so the bearing is packed straight before; that is the last chance,
    and what to mind stands beside it."""
    names = _names(GREASE)
    assert names.index(PACK) + 1 == names.index("cover")
    assert _step(GREASE, "cover").hides == (PACK,)
    packed = _step(GREASE, PACK)
    assert (packed.act, packed.mind) == ("grease", ("a third full; full it runs hot",))


@pytest.mark.parametrize(
    ("bore", "shows"),
    [
        # Of a 52 x 25 bearing the gap between the rings is 34.1 to 42.9 across by the proportions
        # of rings here, so a nozzle of 4 mm goes in beside a hole of 42.1 and more.
        (30, False),
        (42, False),
        (43, True),
        (46, True),
    ],
)
def test_cover_with_a_hole_that_shows_the_row(bore: int, shows: bool) -> None:
    """With a hole as wide as the gap between the rings, grease waits until all else is done; a
    narrower one still hides it. So it is the sizes that say when, not a list of parts."""
    names = _names(GREASE.replace(FACE, f"{FACE}, bore: {bore}"))
    assert (names[-1] == PACK) == shows
    assert (names.index(PACK) < names.index("cover")) != shows


def test_greased_while_it_can_be_got_at_wherever_that_is() -> None:
    """Down the open bore, before the other bearing shuts it; or, of the headstock's front taper,
    which the case hides once the spindle is in, on the bench before it goes in."""
    more = "  pack the blind one: {kind: grease, at: blind bearing}\n"
    names = _names(GREASE + more)
    assert names.index("shaft with what is on it") < names.index("pack the blind one")
    assert names.index("pack the blind one") + 1 == names.index("cover bearing")
    names = _names(_with("headstock", "steps:\n  pack: {kind: grease, at: front}\n"))
    assert names.index("front, cone") < names.index("pack")
    assert names.index("pack") + 1 == names.index("spindle with what is on it")


def test_sealant_goes_on_straight_before_what_covers_it() -> None:
    """On the case's joint before the gasket lies on it, on the flange before the cover goes on."""
    on_the_case = "  on the case: {kind: seal, at: case.joint}\n"
    on_it = "  on it: {kind: seal, at: cover.flange}\n"
    names = _names(_with("feed-box", f"steps:\n{on_the_case}{on_it}"))
    assert names.index("on the case") + 1 == names.index("gasket")
    assert names.index("on it") + 1 == names.index("cover")


def test_nut_is_locked_as_late_as_a_spanner_gets_to_it() -> None:
    """Nothing covers the headstock's nut: it is locked when all checks are read."""
    names = _names(_with("headstock", "steps:\n  stake the nut: {kind: lock, at: nut}\n"))
    assert names[-1] == "stake the nut"


def test_own_step_comes_where_it_is_wished() -> None:
    """After one step and before another, with its minutes and what to mind."""
    own = "{kind: own, after: ['rear, cup'], before: ['front, cup'], mind: one stroke}"
    document = _with("headstock", f"steps:\n  stone: {own}\n")
    names = _names(document)
    assert names.index("rear, cup") < names.index("stone") < names.index("front, cup")
    assert to_mind(_step(document, "stone")) == ("one stroke",)
    assert what_done(_step(document, "stone")) == "stone"


@pytest.mark.parametrize(
    ("wish", "first", "then"),
    [
        ("rear, cup before front, cup", "rear, cup", "front, cup"),
        ("never rear, cup before front, cup", "front, cup", "rear, cup"),
        ("rear, cup after front, cup", "front, cup", "rear, cup"),
    ],
)
def test_wish_of_the_document_is_kept(wish: str, first: str, then: str) -> None:
    """A wish in the document does what one on the command line does."""
    names = _names(_with("headstock", f"wishes:\n  - {wish}\n"))
    assert names.index(first) < names.index(then)


def _findings(document: str) -> list[FindingAnswer]:
    answer = _order(document)
    assert not answer.answered
    return [found for found in answer.findings if found.level == "stop"]


@pytest.mark.parametrize(
    ("more", "line", "words"),
    [
        (
            "wishes:\n  - front cup before rear, cup\n",
            41,
            "names a step 'front cup', which is not there -> did you mean 'front, cup'?",
        ),
        (
            "wishes:\n  - nut before rear, cone\n  - rear, cone before nut\n",
            41,
            "'rear, cone' before 'nut', 'nut' before 'rear, cone': no order has both",
        ),
        (
            "steps:\n  a: {kind: own, after: c}\n  b: {kind: own, after: a}\n"
            "  c: {kind: own, after: b}\n",
            41,
            "'a' before 'b', 'b' before 'c', 'c' before 'a': no order has all of these",
        ),
        (
            "steps:\n  pack: {kind: grease, at: rear, after: nut}\n",
            41,
            "'pack' wants what shuts it (nozzle, to tail: 'nut'",
        ),
        (
            "wishes: [never nut to noze]\n",
            40,
            "'nut' has no way 'to noze' -> there are: to tail, socket, to tail",
        ),
        (
            "wishes:\n  - never rear, cone to tail\n",
            41,
            "'rear, cone' wants what shuts it (to nose: 'spindle with what is on it')",
        ),
        ("steps:\n  nut: {kind: own}\n", 41, "there is a step 'nut' already -> name it another"),
    ],
)
def test_wish_that_cannot_be_is_told_at_its_line(more: str, line: int, words: str) -> None:
    """Misspelt, in a ring or against the shapes: which steps, and where it was typed."""
    (found,) = _findings(_with("headstock", more))
    assert words in f"{found.message} -> {found.way_out}"
    assert found.line == line


def test_step_that_has_no_way_left_is_told() -> None:
    """A shim pack that goes on from the cover's end alone cannot be kept from there."""
    (found,) = _findings(GREASE + "wishes: [never cover shim to cover]\n")
    assert found.message == "'cover shim' has no way left: to cover - none may be used"
    assert found.line == len(GREASE.splitlines()) + 1


def _warm(words: str) -> str:
    """Say how the front bearing of the bevel box is warmed, with some words typed of it."""
    plain = text("bevel-box").decode()
    at = plain.index("front bearing:")
    typed = plain[:at] + plain[at:].replace("kind: ", f"{words}kind: ", 1)
    (one,) = _step(typed, "front bearing").presses
    return press_words(one)[-1]


def test_limit_of_heat_that_is_known_is_told_alone() -> None:
    """At 105 C an open ring with a steel cage may be warmed; one with a plastic cage, with seals or
    greased for life may not, for 80 C is its limit; what is not known is told with both."""
    both = _warm("")
    assert both.startswith("or, plain and open, warm it to about 105 C")
    assert "80 C at most" in both
    assert _warm("cage: steel, ") == both
    assert _warm("cage: steel, sealed: no, ").startswith("or warm it to about 105 C: gloves")
    for words in (
        "cage: plastic, ",
        "sealed: one side, ",
        "sealed: both sides, ",
        "greased: for life, ",
    ):
        told = _warm(words)
        assert told.startswith("not by heat alone: it would take 105 C, and 80 C is the most")
        assert "120" not in told


def test_nut_dressed_on_the_bench_is_locked_there() -> None:
    """The quill hides its spindle's nut once the spindle is in: its tab is bent on the bench."""
    document = text("quill").decode().replace("torque: 30 N.m}", "torque: 30 N.m, locked by: tab}")
    names = _names(document)
    assert names.index("nut") < names.index("lock nut")
    assert names.index("lock nut") < names.index("spindle with what is on it")
    assert "lock nut" in _step(document, "spindle with what is on it").hides


def test_bevels_say_how_their_lines_lie() -> None:
    """The pinion of the bevel box is wider than its bore, so it goes in from inside the case, and
    has to be there before the wheel shaft shuts that way. Nothing is typed for it but the mesh."""
    names = _names(text("bevel-box").decode())
    assert names.index("pinion shaft") < names.index("wheel shaft with what is on it")
    assert _order(text("bevel-box").decode()).untold_lines == ()
    skew = text("bevel-box").decode().replace("kind: bevel,", "kind: bevel, shaft angle: 60 deg,")
    assert _order(skew).untold_lines == ("'wheel shaft' and 'pinion shaft'",)
