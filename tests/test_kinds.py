"""Every kind has its entry in every layer that must know it, and nobody asks for it by name."""

import ast
from pathlib import Path

import pytest

from dryfit.app.usecases.ordering.own import ACTS, STAGES
from dryfit.app.usecases.ordering.reach import READ_AT
from dryfit.app.words.strip_down import NOTE, PAIR
from dryfit.app.words.trade import BESIDE, CARE, HOW
from dryfit.ask.instruments import USUAL_INSTRUMENT
from dryfit.ask.misreadings import FALSE, MISREADINGS
from dryfit.ask.mistakes import MESH_MISTAKES, MISTAKES
from dryfit.model.meshes import MESH_KINDS
from dryfit.model.own_steps import STEP_KINDS
from dryfit.model.parts import PART_KINDS
from dryfit.model.rebuild import CHECK_KINDS, NEED_KINDS
from dryfit.shape.gears import GEARS
from dryfit.shape.kinds import CELLS
from dryfit.solve.bodies import BODIES
from dryfit.solve.meshes import LASHES
from dryfit.solve.predict import READERS

SOURCE = Path(__file__).resolve().parent.parent / "src" / "dryfit"

PARTS = {
    "model.parts": PART_KINDS,
    "solve.bodies": BODIES,
    "shape.kinds": CELLS,
    "ask.mistakes": MISTAKES,
    "app.words.strip_down": NOTE,
}
CHECKS = {
    "model.rebuild": CHECK_KINDS,
    "ask.instruments": USUAL_INSTRUMENT,
    "ask.misreadings": MISREADINGS,
    "app.usecases.ordering.reach": READ_AT,
    "app.words.trade HOW": HOW,
    "app.words.trade CARE": CARE,
    "app.words.trade BESIDE": BESIDE,
}
MESHES = {
    "model.meshes": MESH_KINDS,
    "solve.meshes": LASHES,
    "shape.gears": GEARS,
    "ask.mistakes": MESH_MISTAKES,
    "app.words.strip_down": PAIR,
}
ASKED = {
    "model.rebuild": {**CHECK_KINDS, **NEED_KINDS},
    "solve.predict": READERS,
    "ask.misreadings": FALSE,
}
OWN_STEPS = {
    "model.own_steps": STEP_KINDS,
    "app.usecases.ordering.own ACTS": ACTS,
    "app.usecases.ordering.own STAGES": STAGES,
}


@pytest.mark.parametrize(
    "tables",
    [PARTS, CHECKS, MESHES, ASKED, OWN_STEPS],
    ids=["parts", "checks", "meshes", "asked", "own steps"],
)
def test_no_kind_is_missing_in_a_layer(tables: dict[str, dict[str, object]]) -> None:
    """A kind that one layer knows and another does not would fail at the bench, not here."""
    every = set().union(*tables.values())
    holes = [f"{layer}: {kind}" for layer, table in tables.items() for kind in every - set(table)]
    assert sorted(holes) == []


def test_kind_is_compared_nowhere() -> None:
    """What a kind means stands in the tables; no code asks `if part.kind == ...`."""
    found = []
    layers = [p for p in SOURCE.iterdir() if p.is_dir() and p.name != "quantities"]
    for path in (path for layer in layers for path in layer.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Compare):
                sides = [node.left, *node.comparators]
                if any(isinstance(side, ast.Attribute) and side.attr == "kind" for side in sides):
                    found.append(f"{path.relative_to(SOURCE)}:{node.lineno}")
    assert found == []
