"""`new`: a text to start from, for a kind of unit, and its first values."""

from collections.abc import Iterable
from importlib.resources import files

from dryfit.document.edit import Edit, Spliced
from dryfit.document.mentions import change
from dryfit.document.nodes import reach
from dryfit.document.tree import read_tree
from dryfit.quantities import Finding, Place, System

DRAWER: dict[System, str] = {
    "mm": "[0.05 mm, 0.10 mm, 0.25 mm, 0.50 mm]",
    "inch": "[2 thou, 5 thou, 10 thou, 20 thou]",
}
"""Shim stock that lies in most drawers: common practice, no source."""


def kinds() -> tuple[str, ...]:
    """List the kinds of unit there is a start for."""
    folder = files("dryfit.document") / "starts"
    return tuple(
        sorted(f.name.removesuffix(".yaml") for f in folder.iterdir() if f.name.endswith(".yaml"))
    )


def start(kind: str) -> bytes:
    """Give the text to start from."""
    return (files("dryfit.document") / "starts" / f"{kind}.yaml").read_bytes()


def begun(kind: str, system: System, values: Iterable[tuple[Place, str]] = ()) -> Spliced:
    """Give that text in a system, with the drawer that is usual there, and with first values."""
    text = start(kind).decode().replace(DRAWER["mm"], DRAWER[system])
    return filled(text, [(("sizes in",), system), *values])


def filled(text: str, values: Iterable[tuple[Place, str]]) -> Spliced:
    """Write values into a text, each at its place; those that cannot be are findings."""
    findings: list[Finding] = []
    for place, typed in values:
        root = read_tree(text).root
        there = root is not None and len(reach(root, place)) == len(place) + 1
        done = change(text, Edit("set" if there else "add", place, typed=typed))
        text = done.text
        findings += done.findings
    return Spliced(text, tuple(findings))
