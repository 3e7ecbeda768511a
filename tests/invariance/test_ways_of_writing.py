"""The same machine, written in another way, is told the same.

Every test runs over all demos and the machines of tests/machines; `turns` rewrites the text as
plain data and knows nothing of how dryfit reads it.
"""

from functools import cache

import pytest
from tests.invariance.telling import (
    DOCUMENTS,
    SAME,
    Data,
    Told,
    apart,
    ask,
    data_of,
    packs_in,
    same,
    same_but_for_luck,
    tell,
    text_of,
)
from tests.invariance.turns import in_other_units, mirrored, renamed, sawn, shuffled, whole

from dryfit.ask.expect import expect
from dryfit.document.read import read_document
from dryfit.model.rebuild import Check, Depth, Need, Rebuild, Thickness

EACH = pytest.mark.parametrize("name", DOCUMENTS)
PARTS = [(name, part) for name in DOCUMENTS for part in data_of(name)["parts"]]
SAWN = [(name, part) for name in DOCUMENTS for part in whole(data_of(name))]


@cache
def _told(name: str) -> Told:
    return tell(name, data_of(name))


@EACH
def test_plain_data_is_read_as_the_text_is(name: str) -> None:
    """What these tests rewrite is the document itself, nothing lost on the way."""
    text = DOCUMENTS[name].read_text(encoding="utf-8")
    assert read_document(text_of(data_of(name))).rebuild == read_document(text).rebuild


def _keys_stay(data: Data) -> bool:
    """Whether no size changes its name with the ends, so that each keeps its draws."""
    return {*mirrored(data)["sizes"]} == {*data["sizes"]}


@EACH
def test_line_looked_at_from_its_other_end(name: str) -> None:
    """Whichever end the builder starts from, all readings and chances are the same."""
    data = data_of(name)
    told = tell(name, mirrored(data))
    if _keys_stay(data):
        same(_told(name), told)
    else:
        same_but_for_luck(_told(name), told)


def test_most_documents_keep_their_draws_when_turned() -> None:
    """The test above is exact for all documents but those that measure from an end of a part."""
    changed = {n for n in DOCUMENTS if not _keys_stay(data_of(n))}
    assert changed == {"lay-shaft", "lay-shaft-tang", "side-by-side"}


@EACH
def test_every_line_is_really_turned(name: str) -> None:
    """Turned twice it is the same document, turned once it is another."""
    data = data_of(name)
    once, twice = mirrored(data), mirrored(mirrored(data))
    assert [*once["lines"].values()] != [*data["lines"].values()]
    assert (twice["lines"], twice["sizes"]) == (data["lines"], data["sizes"])


def test_typed_tolerance_belongs_to_the_length() -> None:
    """A boss of -3.42 +/- 0.01 has the same draws as one of 3.42 +/- 0.01 from the other end."""
    data = data_of("feed-box")
    data["sizes"]["cover.flange to cover.boss"] = "-3.42 +/- 0.01"
    same(tell("feed-box", data), tell("feed-box", mirrored(data)))


def test_typed_tolerance_from_the_other_end_but_for_luck() -> None:
    """With a tolerance on every size, even an uneven one, both ways agree within their draws."""
    data = data_of("feed-box")
    data["sizes"] |= {
        "case.thrust face to case.joint": "152.36 + 0.03 - 0.01",
        "cover.flange to cover.boss": "-3.42 + 0.00 - 0.02",
        "shaft": "148.70 +/- 0.02",
    }
    same_but_for_luck(tell("feed-box", data), tell("feed-box", mirrored(data)))


@EACH
def test_other_units(name: str) -> None:
    """In inches or in millimetres the machine is the same to 1e-9 of a millimetre."""
    data = data_of(name)
    one, other = _told(name), tell(name, in_other_units(data))
    if any("cut to size" in setting for setting in data["settings"].values()):
        # cut to 0.01 mm or to half a thou: other packs can be made, by design
        assert apart(one.readings, other.readings, 1e-12) == {}
        assert (one.shares["chance"], one.shares["harm"]) == (
            other.shares["chance"],
            other.shares["harm"],
        )
    else:
        same(one, other, within=1e-12)


def test_units_of_every_size_are_really_changed() -> None:
    """A document read in the wrong units would be seen: only sizes with their own unit stay."""
    data = data_of("worm-inch")
    wrong = {**in_other_units(data), "sizes in": "inch"}
    one, other = (read_document(text_of(d)).rebuild for d in (data, wrong))
    assert not {k for k in one.sizes if one.sizes[k].size == other.sizes[k].size}


@EACH
@pytest.mark.parametrize("seed", range(3))
def test_entries_in_another_order(name: str, seed: int) -> None:
    """Where a part, size, check or stack stands in the text changes no figure."""
    same(tell(name, shuffled(data_of(name), seed)), _told(name))


@EACH
def test_entries_in_another_order_to_the_last_bit(name: str) -> None:
    """Not even the last bit of a figure hangs on the order of the text."""
    assert all(tell(name, shuffled(data_of(name), seed)) == _told(name) for seed in range(3))


@pytest.mark.parametrize(("name", "part"), PARTS)
@pytest.mark.parametrize("new", ["aa", "zz"])
def test_part_with_another_name(name: str, part: str, new: str) -> None:
    """A part's name counts for nothing; sorted first or last, only its luck is another."""
    same_but_for_luck(_told(name), tell(name, renamed(data_of(name), part, new)))


def _roomy(rebuild: Rebuild, part: str) -> list[str]:
    """List needs and checks, without those that measure the part by itself."""
    asked = {**rebuild.needs, **rebuild.checks}
    return [n for n, a in asked.items() if not (isinstance(a, Thickness) and a.of == part)]


def _typed(data: Data, packs: dict[str, float], names: list[str]) -> dict[str, float]:
    asking = ask(data, 1)
    asked: dict[str, Need | Check] = {**asking.rebuild.needs, **asking.rebuild.checks}
    return {name: asking.typed(asked[name], packs) for name in names}


@pytest.mark.parametrize(("name", "part"), SAWN)
def test_part_sawn_in_two(name: str, part: str) -> None:
    """Two pieces whose lengths add up stand in for one."""
    data = data_of(name)
    whole_one = ask(data, 1)
    names, packs = _roomy(whole_one.rebuild, part), packs_in(name, whole_one)
    halves = sawn(data, part)
    for asked in halves["checks"].values():
        if asked["kind"] == "gap" and asked["at"] == f"{part} b":
            names.remove(next(n for n, a in halves["checks"].items() if a is asked))
    assert apart(_typed(data, packs, names), _typed(halves, packs, names), SAME) == {}


def test_saw_goes_through_parts_of_most_documents() -> None:
    """Shafts, spacers, washers and sleeves are among the parts that are sawn."""
    assert len(SAWN) >= 15
    assert {part for _, part in SAWN} >= {"shaft", "cluster", "spacer", "sleeve", "front washer"}


MOVED = [
    ("feed-box", "shaft", "thrust shim"),
    ("feed-box-burr", "shaft", "thrust shim"),
    ("feed-box-sealant", "shaft", "thrust shim"),
    ("first-end-shim", "spacer", "thrust shim"),
    ("lay-shaft", "cluster", "rear washer"),
    ("lay-shaft-tang", "cluster", "rear washer"),
    ("side-by-side", "right washer", "thrust shim"),
    ("two-covers", "spacer", "thrust shim"),
]
"""Document, a part, and the setting that lies next to it."""


@pytest.mark.parametrize(("name", "part", "setting"), MOVED)
def test_what_the_spacer_gains_and_the_shim_loses(name: str, part: str, setting: str) -> None:
    """A part longer by 0.05 mm and its shim as much thinner: no other reading or band moves."""
    data = data_of(name)
    longer, shorter = _lengthened(data, part, 0), _lengthened(data, part, 50)
    packs = packs_in(name, ask(data, 1))
    asking = ask(longer)
    names = [c for c, a in asking.rebuild.checks.items() if not _inside(a, part, setting)]
    names = [n for n in names if not _changed_state(data, n, part, setting)]
    assert "end float" in names
    thinner = {**packs, setting: packs[setting] - 50e-6}
    one, other = _bands(longer, packs, names), _bands(shorter, thinner, names)
    # a metal that grows by 20e-6 a kelvin more than another, 0.05 mm of it, 70 K: 0.07 nm
    assert apart(one, other, 1e-10) == {}


def _lengthened(data: Data, part: str, microns: int) -> Data:
    """Give a part a typed tolerance, so that its doubt does not follow its length, and more."""
    unit = {"mm": 1e3, "inch": 25.4e3}[data["sizes in"]]
    length = float(data["sizes"][part].split(" ")[0]) + microns / unit
    return {**data, "sizes": {**data["sizes"], part: f"{length:.12f} +/- {10 / unit:.12f}"}}


def _inside(asked: object, part: str, setting: str) -> bool:
    """Whether a check looks at the face between the two, or at one of them alone."""
    if isinstance(asked, Depth):
        return any(spot is not None and spot.part == part for spot in (asked.from_, asked.to))
    return getattr(asked, "kind", "") in ("gap", "thickness") and bool(
        {getattr(asked, "of", ""), getattr(asked, "at", "")} & {part, setting}
    )


def _changed_state(data: Data, check: str, part: str, setting: str) -> bool:
    """Whether a check is read without one of the two, or with another pack."""
    state = data.get("states", {}).get(data["checks"][check].get("state", "built"), {})
    return bool({*state.get("left out", ()), *state.get("fitted", ())} & {part, setting})


def _bands(data: Data, packs: dict[str, float], names: list[str]) -> dict[str, tuple[float, ...]]:
    asking = ask(data)
    found = expect(asking, (), packs)
    return {
        e.check.name: (e.typed or 0.0, e.low or 0.0, e.high or 0.0)
        for e in found
        if e.check.name in names
    }
