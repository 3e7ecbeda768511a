"""Wishes and own steps read from the text: what they say, and what is told of a slip."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.document.edit import Edit
from dryfit.document.mentions import change
from dryfit.document.read import read_document
from dryfit.document.wishes import wish_of
from dryfit.model.own_steps import Before, NotBy
from dryfit.model.rules import check
from dryfit.quantities import Place

TEXT = """\
dryfit: 1
sizes in: mm
lines:
  spindle:
    from nose to tail:
      stack: [case.face, front, shaft.shoulder]
      far:   [shaft.end, ring, nut]
      joint: [case.joint, cover.flange]
parts:
  case: {kind: housing}
  shaft: {kind: shaft}
  front: {kind: deep groove ball, bore: 25, outside: 52, width: 15, sealed: both sides}
  ring: {kind: spacer}
  nut: {kind: nut, thread: M20x1.5, locked by: tab washer}
  cover: {kind: cover}
"""


def _told(more: str) -> list[tuple[str, Place, str]]:
    """Give code, place, and message with the way out, of all that is wrong."""
    document = read_document(TEXT + more)
    found = [*document.findings, *check(document.rebuild)]
    return [(f.code, f.place, f"{f.message} -> {f.way_out}") for f in found]


@pytest.mark.parametrize(
    ("typed", "wish"),
    [
        ("cover before oil", Before("cover", "oil")),
        ("rear, cup after front, cup", Before("front, cup", "rear, cup")),
        ("never cover before oil", Before("oil", "cover")),
        ("never cover after oil", Before("cover", "oil")),
        ("never spindle with what is on it to tail", NotBy("spindle with what is on it", "tail")),
        ("  cover   before  the  oil ", Before("cover", "the oil")),
    ],
)
def test_wish_says_what_it_says(typed: str, wish: Before | NotBy) -> None:
    """A wish is one plain sentence; never one thing before another is the other before it."""
    assert wish_of(typed) == wish


@pytest.mark.parametrize(
    "typed", ["", "before", "cover before", "before oil", "cover to tail", "x"]
)
def test_half_a_wish_is_none(typed: str) -> None:
    """What lacks one of its steps is not guessed at."""
    assert wish_of(typed) is None


NAMES = st.from_regex(r"[a-z]{1,8}(, [a-z]{1,8})?( [a-z]{1,8})?", fullmatch=True).filter(
    lambda name: not {"before", "after", "never", "to"} & {*name.replace(",", " ").split()}
)


@given(NAMES, NAMES)
def test_any_two_steps_can_be_named(one: str, other: str) -> None:
    """Whatever two steps are called, either can be wished before the other, said in four ways."""
    wish = Before(one, other)
    assert wish_of(f"{one} before {other}") == wish_of(f"{other} after {one}") == wish
    assert wish_of(f"never {other} before {one}") == wish_of(f"never {one} after {other}") == wish


def test_wish_is_told_from_its_place_in_the_list() -> None:
    """Each wish knows where it was typed, one by itself too."""
    read = read_document(TEXT + "wishes:\n  - nut after ring\n  - never nut to nose\n").rebuild
    assert [wish.place for wish in read.wishes] == [("wishes", 0), ("wishes", 1)]
    alone = read_document(TEXT + "wishes: nut after ring\n").rebuild
    assert alone.wishes == (Before("ring", "nut", ("wishes",)),)


SLIPS: list[tuple[str, str, Place, str]] = [
    ("wishes: [nut befor ring]", "plan.pin", ("wishes", 0), "a name with a comma goes in quotes"),
    ("wishes:\n  - nut befor ring", "plan.pin", ("wishes", 0), '"cover before nut"'),
    ("wishes: [nut before nut]", "step.itself", ("wishes", 0), "before or after itself"),
    ("wishes: {nut: ring}", "shape.list", ("wishes",), "in square brackets"),
    ("steps: [oil]", "shape.group", ("steps",), "steps: {key: value}"),
    ("steps:\n  oil: {kind: oil}", "kind", ("steps", "oil", "kind"), "own, grease, seal, lock"),
    ("steps:\n  oil: {kind: grease}", "key.missing", ("steps", "oil", "at"), "add at: ..."),
    ("steps:\n  oil: {kind: own, by: me}", "key.unknown", ("steps", "oil", "by"), "at, after,"),
    ("steps:\n  oil: {kind: own, minutes: 0}", "minutes", ("steps", "oil", "minutes"), "10 min"),
    ("steps:\n  oil: {kind: own, after: oil}", "step.itself", ("steps", "oil", "after"), "'oil'"),
    ("steps:\n  oil: {kind: seal, at: frot}", "part.unknown", ("steps", "oil", "at"), "'front'"),
    ("steps:\n  oil: {kind: seal, at: case}", "step.where", ("steps", "oil", "at"), "case.face"),
    ("steps:\n  o: {kind: seal, at: case.fac}", "step.spot", ("steps", "o", "at"), "'face'"),
    ("steps:\n  o: {kind: seal, at: case.a.b}", "spot", ("steps", "o", "at"), "part.place"),
    ("steps:\n  o: {kind: lock, at: ring}", "step.lock", ("steps", "o", "at"), "nor screwed on"),
    ("steps:\n  o: {kind: lock, at: nut}", "step.lock", ("steps", "o", "at"), "its tab washer"),
    ("steps:\n  o: {kind: grease, at: front}", "step.sealed", ("steps", "o", "at"), "both sides"),
    ("steps:\n  a before b: {kind: own}", "step.name", ("steps", "a before b"), "'before'"),
    ("steps:\n  never mind: {kind: own}", "step.name", ("steps", "never mind"), "'never'"),
]


@pytest.mark.parametrize(("typed", "code", "place", "words"), SLIPS)
def test_slip_is_told_where_it_stands(typed: str, code: str, place: Place, words: str) -> None:
    """One slip, one finding: its place, what was read and the way out."""
    ((found, where, told),) = _told(typed + "\n")
    assert (found, where) == (code, place)
    assert words in told


def test_sound_steps_are_read_without_a_word() -> None:
    """Every kind of own step, with all its keys."""
    more = """\
steps:
  wash: {kind: own, before: [front, ring], minutes: 10 min, mind: gloves}
  stone the shoulder: {kind: own, at: shaft.shoulder}
  pack: {kind: grease, at: ring, minutes: 2.5}
  joint: {kind: seal, at: cover}
  wire: {kind: lock, at: cover, after: wash}
wishes: [pack after wash]
"""
    assert _told(more) == []
    steps = read_document(TEXT + more).rebuild.steps
    assert (steps["wash"].minutes, steps["pack"].minutes, steps["joint"].minutes) == (10, 2.5, None)
    assert steps["wash"].before == ("front", "ring")
    assert (str(steps["stone the shoulder"].at), steps["wash"].mind) == ("shaft.shoulder", "gloves")


def test_steps_and_wishes_are_added_changed_and_taken_out() -> None:
    """One step or wish at a time is spliced in and out; the text ends as it began."""
    text = TEXT + "steps:\n  wash: {kind: own}\nwishes:\n  - wash before ring\n"
    edits = [
        Edit("add", ("steps", "pack"), typed="{kind: grease, at: ring}"),
        Edit("add", ("wishes", 1), typed="rear, cup before front, cup"),
        Edit("set", ("steps", "pack", "at"), seen="ring", typed="shaft.end"),
        Edit("set", ("wishes", 0), seen="wash before ring", typed="wash before nut"),
        Edit("add", ("steps", "wash", "minutes"), typed="10 min"),
    ]
    back = [
        Edit("remove", ("steps", "wash", "minutes")),
        Edit("set", ("wishes", 0), typed="wash before ring"),
        Edit("remove", ("wishes", 1)),
        Edit("remove", ("steps", "pack")),
    ]
    now = text
    for edit in edits:
        done = change(now, edit)
        assert done.findings == ()
        now = done.text
    read = read_document(now).rebuild
    assert [(w.first, w.then) for w in read.wishes if isinstance(w, Before)] == [
        ("wash", "nut"),
        ("rear, cup", "front, cup"),
    ]
    assert str(read.steps["pack"].at) == "shaft.end"
    for edit in back:
        done = change(now, edit)
        assert done.findings == ()
        now = done.text
    assert now == text


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("cage: nylon", "plastic, steel, brass, bronze, none"),
        ("cage: plastik", "plastic"),
        ("sealed: both", "both sides, one side, no"),
        ("greased: yes", "for life, no"),
    ],
)
def test_word_of_a_bearing_that_is_not_known(typed: str, words: str) -> None:
    """Of cage, seals and grease only the words are taken that say how warm it may get."""
    text = TEXT.replace("sealed: both sides", typed)
    document = read_document(text)
    (found,) = check(document.rebuild)
    assert found.place == ("parts", "front", typed.partition(":")[0])
    assert words in found.way_out


PIECES = ["own", "grease", "case", "case.face", "front", "nut", "nut before ring", "never", "oil",
          "never nut to nose", "spindle", "10 min", "-3", "0", "both sides", "square", "not known",
          "a, b", "x.y.z", "", "before", "nut before nut", "case.fase"]  # fmt: skip
KEYS = ["kind", "at", "after", "before", "minutes", "mind", "line", "other", "level", "crossing",
        "other crossing", "centre distance", "nut", "oil", "never x"]  # fmt: skip
VALUES = st.recursive(
    st.sampled_from(PIECES),
    lambda deeper: st.one_of(
        st.lists(deeper, max_size=3), st.dictionaries(st.sampled_from(KEYS), deeper, max_size=4)
    ),
    max_leaves=8,
)


@given(st.fixed_dictionaries({}, optional={"steps": VALUES, "wishes": VALUES, "axes": VALUES}))
def test_whatever_stands_there_is_told_with_its_place(more: dict[str, object]) -> None:
    """Any mixture of words, lists and groups is read or refused, each slip with what to do."""
    document = read_document(TEXT + "".join(f"{k}: {json.dumps(v)}\n" for k, v in more.items()))
    for found in (*document.findings, *check(document.rebuild)):
        assert found.message
        assert found.way_out
        assert found.place[:1] in [(key,) for key in more]
    document.located(check(document.rebuild))
