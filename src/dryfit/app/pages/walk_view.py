"""What is typed for a walk, and what a page tells of it."""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from typing import Literal

from dryfit.app.pages.set_view import Plot
from dryfit.app.pages.typed import as_written
from dryfit.quantities.finding import Finding

By = Literal["nut", "pack"]

LONGEST = 200
"""Most characters of a box."""

MOST_ROWS = 40


@dataclass(frozen=True, slots=True)
class WalkTyped:
    """A walk as typed; `rows` are marks or packs, each with its float."""

    rows: tuple[tuple[str, str], ...]
    by: By = "nut"
    system: Literal["mm", "inch"] = "mm"
    pitch: str = ""
    want: str = ""
    past: str = ""
    across: str = ""
    push: str = ""


@dataclass(frozen=True, slots=True)
class Part:
    """A head, and the sentences below it."""

    head: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Point:
    """A reading, and how it lies to the line."""

    mark: str
    read: str
    lies: str


@dataclass(frozen=True)
class WalkTold:
    """Where a walk comes to nothing and where to stop, or what is wrong with it.

    Attributes
    ----------
    findings
        What is wrong, each with the box it is beside: `("row", 2)`, `("pitch",)`, or none.
    stop
        Which way to go and how far, and what it is then: the first thing to read.
    """

    title: str
    findings: tuple[Finding, ...]
    stop: Part | None = None
    points: tuple[Point, ...] = ()
    parts: tuple[Part, ...] = ()
    plot: Plot | None = None


OPTIONS = tuple(one.name for one in fields(WalkTyped) if one.name not in ("rows", "by", "system"))
"""Boxes besides the readings and the choices."""


def typed(form: Mapping[str, str]) -> WalkTyped:
    """Take a walk from a form; rows with nothing in them stay, so that a finding finds its row."""
    return WalkTyped(
        rows(form),
        "pack" if form.get("by") == "pack" else "nut",
        "inch" if form.get("system") == "inch" else "mm",
        **{name: form.get(name, "") for name in OPTIONS},
    )


def rows(form: Mapping[str, str]) -> tuple[tuple[str, str], ...]:
    """Take the rows of a form: `mark-1` and `read-1`, and so on, up to the last that is not empty.

    Examples
    --------
    >>> rows({"mark-1": "0", "read-1": "0.08", "mark-2": "", "read-2": ""})
    (('0', '0.08'),)
    """
    found = [
        (form.get(f"mark-{n}", ""), form.get(f"read-{n}", "")) for n in range(1, MOST_ROWS + 1)
    ]
    while found and not any(box.strip() for box in found[-1]):
        found.pop()
    return tuple(found)


def mark_written(mark: str, by: By) -> str:
    """Write a mark as a text has it: a bare number at a nut is degrees.

    Examples
    --------
    >>> mark_written("10,5", "nut"), mark_written("1/8 turn", "nut"), mark_written("0.45", "pack")
    ('10.5 deg', '1/8 turn', '0.45')
    """
    if not mark.strip():
        return ""
    text = as_written(mark)
    bare = text.replace(".", "", 1).isdigit() and text.isascii()
    return f"{text} deg" if bare and by == "nut" else text


def too_long(form: Mapping[str, str]) -> tuple[Finding, ...]:
    """Find boxes in which there is more than goes there."""
    return tuple(
        Finding(
            "page.long",
            _place(name),
            f"{len(text)} characters, beginning '{text[:20]}'; at most {LONGEST} go here",
            "type the figure alone",
        )
        for name, text in form.items()
        if len(text) > LONGEST
    )


def _place(name: str) -> tuple[str | int, ...]:
    """Say where a box is."""
    _, dash, number = name.partition("-")
    return ("row", int(number)) if dash and number.isdigit() else (name,)
