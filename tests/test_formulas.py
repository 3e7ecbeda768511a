"""Every formula of `mechanics` agrees with its sources, and each case pins its arguments."""

import warnings
from collections import Counter
from typing import Any

import numpy as np
import pytest
from tests.checks.formula_cases import ALL_CASES, FORMULA_CASES, KINDS, SOURCES

NAMES = sorted(FORMULA_CASES)
NUMERIC = [name for name in NAMES if FORMULA_CASES[name].is_numeric]


@pytest.mark.parametrize("name", NAMES)
def test_agrees_with_its_source(name: str) -> None:
    """What a standard, a handbook or another program prints is what the formula gives."""
    assert FORMULA_CASES[name].missed() == []


@pytest.mark.parametrize("name", NAMES)
def test_each_argument_shows(name: str) -> None:
    """A case that still passed with an argument moved would prove nothing about it."""
    case = FORMULA_CASES[name]
    assert [(at, other) for at, other in case.others() if not case.shows(at, other)] == []


@pytest.mark.parametrize("name", NAMES)
def test_case_is_told_in_full(name: str) -> None:
    """Where a value comes from, and every leniency, stands beside it."""
    case = FORMULA_CASES[name]
    assert case.source in SOURCES
    assert case.where
    assert case.kind in KINDS
    assert all(value.because for value in case.values if value.within is not None)
    told = {*case.moved, *case.instead, *case.unmoved}
    assert told <= set(case.arguments)
    for argument, given in case.arguments.items():
        still = isinstance(given, str) or np.all(np.asarray(given) == 0)
        assert not still or argument in told, f"{argument} does not move by a tenth"


@pytest.mark.parametrize("name", NUMERIC)
def test_arrays_give_what_floats_give(name: str) -> None:
    """A thousand draws at once are answered as each alone; what is not a number stays so."""
    case = FORMULA_CASES[name]
    alone = _fields(case.formula(**case.arguments))
    numbers = [key for key, value in case.arguments.items() if isinstance(value, float)]
    for key in numbers:
        column = np.array([case.arguments[key], np.nan, case.arguments[key]])
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            many = _fields(case.formula(**(case.arguments | {key: column})))
        dead = [_is_dead(one) for one in many]
        assert any(dead) or key in case.unmoved, f"{key} as NaN is not seen"
        for one, other in zip(alone, many, strict=True):
            if isinstance(one, float):
                kept = np.broadcast_to(other, (3,))[[0, 2]]
                np.testing.assert_allclose(kept, one, rtol=1e-9, atol=1e-300)


def _is_dead(values: Any) -> bool:
    return bool(np.ndim(values)) and bool(np.isnan(values[1]))


def _fields(result: Any) -> tuple[Any, ...]:
    return result if isinstance(result, tuple) else (result,)


@pytest.mark.parametrize("name", NUMERIC)
def test_arguments_broadcast(name: str) -> None:
    """A column of one size against a row of another gives a table."""
    case = FORMULA_CASES[name]
    keys = [key for key, value in case.arguments.items() if isinstance(value, float)][:2]
    if len(keys) < 2:
        return
    shapes = [(2, 1), (1, 3)]
    spread = {
        key: np.full(shape, case.arguments[key]) for key, shape in zip(keys, shapes, strict=True)
    }
    alone = _fields(case.formula(**case.arguments))
    many = _fields(case.formula(**(case.arguments | spread)))
    for one, other in zip(alone, many, strict=True):
        if isinstance(one, float):
            assert np.shape(other) in {(), (2, 1), (1, 3), (2, 3)}
            np.testing.assert_allclose(other, one, rtol=1e-9, atol=1e-300)


BROKEN = [
    (name, place)
    for name, case in FORMULA_CASES.items()
    for place in range(len(case.formula.conditions))
]


@pytest.mark.parametrize(("name", "place"), BROKEN)
def test_what_cannot_be_is_refused(name: str, place: int) -> None:
    """An impossible size raises with what was wanted and read; in an array it is not a number."""
    case = FORMULA_CASES[name]
    condition = case.formula.conditions[place]
    given = case.formula.arguments(**case.arguments)
    for argument, other, beyond in (
        (condition.left, condition.right, 1 if "<" in condition.sign else -1),
        (condition.right, condition.left, -1 if "<" in condition.sign else 1),
    ):
        if argument not in given or isinstance(given[argument], np.ndarray):
            continue
        limit = condition.limit(other, given)
        wrong = limit + beyond * (abs(limit) + 1e-3)
        with pytest.raises(ValueError, match=f"{argument} = "):
            case.formula(**(case.arguments | {argument: wrong}))
        if case.is_numeric:
            both = np.array([given[argument], wrong])
            many = _fields(case.formula(**(case.arguments | {argument: both})))
            assert all(np.isnan(np.broadcast_to(one, (2,))[1]) for one in many)


def test_names_of_cases_differ() -> None:
    """No case is hidden behind another of the same name."""
    counted = Counter(case.name for case in ALL_CASES)
    assert [name for name, count in counted.items() if count > 1] == []


def test_enough_values_of_enough_sources() -> None:
    """At least 150 read numbers of at least 18 sources; none of them carries the rest."""
    published = Counter[str]()
    read = Counter[str]()
    for case in ALL_CASES:
        if case.kind == "published" and case.is_numeric:
            published[case.source] += len(case.values)
            read[case.source] += 0 if case.memory else len(case.values)
    assert max(published.values()) <= 20, published.most_common(3)
    assert len(+read) >= 18
    assert read.total() >= 150
