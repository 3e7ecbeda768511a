"""The layers of dryfit import downward only, and each library stays in the layers meant for it.

`LAYERS` is the map. Its checker reads the source, also inside functions, and is itself tried on
small planted trees at the end.
"""

import ast
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

SOURCE = Path(__file__).resolve().parent.parent / "src" / "dryfit"

EVERYWHERE = {"quantities", "model", "__version__"}
"""What every layer above these two may import: the words all of them speak."""

LAYERS: dict[str, set[str]] = {
    "quantities": set(),
    "mechanics": {"quantities"},
    "model": {"quantities"},
    "document": EVERYWHERE,
    "shape": EVERYWHERE,
    "solve": EVERYWHERE | {"mechanics"},
    "ask": EVERYWHERE | {"solve"},
    "bench": EVERYWHERE | {"solve", "ask.variants"},
    "plan": EVERYWHERE | {"shape", "ask"},
    "lists": EVERYWHERE | {"shape", "solve"},
    "draw": EVERYWHERE | {"shape"},
    "store": EVERYWHERE | {"document"},
}
LAYERS["app"] = EVERYWHERE | set(LAYERS)
"""From the bottom up; `ask.variants` opens that one module of a layer."""

FOR_TYPES = {"draw": {"solve", "ask", "plan", "lists"}}
"""What a layer gets handed and may name under `if TYPE_CHECKING`, but not call."""

LIBRARIES = {
    "numpy": set(LAYERS) - {"quantities", "model", "document"},
    "numba": {"solve"},
    "jinja2": {"draw"},
    "typst": {"draw", "app"},
    "fontpkg_fira_sans": {"draw", "app"},
    "ezdxf": {"draw"},
    "PIL": {"store"},
    "yaml": {"document"},
    "click": {"app"},
    "starlette": {"app"},
    "uvicorn": {"app"},
    "markupsafe": {"draw"},
    "importlib": {"app"},
}
"""The libraries dryfit needs or, as numba, is faster with, and `importlib`, which could hide an
import from this test."""

TOP = {"__init__.py", "__main__.py", "py.typed"}
"""Files beside the layers."""


@dataclass(frozen=True)
class Import:
    """One name brought in: `dryfit.model.parts.Part`, its line, and whether for types only."""

    name: str
    line: int
    for_types: bool


def imports(source: str) -> Iterator[Import]:
    """Find every import of a module, those inside functions too."""
    tree = ast.parse(source)
    guarded = {
        id(inner)
        for node in ast.walk(tree)
        if isinstance(node, ast.If)
        and ast.unparse(node.test) in {"TYPE_CHECKING", "typing.TYPE_CHECKING"}
        for statement in node.body
        for inner in ast.walk(statement)
    }
    for node in ast.walk(tree):
        for name in names(node):
            yield Import(name, node.lineno, id(node) in guarded)  # type: ignore[attr-defined]


def names(node: ast.AST) -> list[str]:
    """Spell out what a statement imports; a relative import keeps its dots."""
    if isinstance(node, ast.Import):
        return [alias.name for alias in node.names]
    if isinstance(node, ast.ImportFrom):
        front = "." * node.level + (node.module or "")
        return [f"{front}.{alias.name}" for alias in node.names]
    if isinstance(node, ast.Call) and ast.unparse(node.func) == "__import__":
        return ["importlib"]
    return []


def is_within(name: str, allowed: set[str]) -> bool:
    """Tell whether a dotted name is one of the allowed modules or lies inside one."""
    return any(f"{name}.".startswith(f"{module}.") for module in allowed)


def fault(layer: str, found: Import) -> str:
    """Say what is wrong with an import made in a layer; nothing when it is in order."""
    top, _, inner = found.name.partition(".")
    if not top:
        return "is relative; write it from dryfit on"
    if top == "dryfit":
        typed = FOR_TYPES.get(layer, set()) if found.for_types else set()
        in_order = is_within(inner, LAYERS[layer] | typed | {layer})
        return "" if in_order else f"is not for the layer {layer}"
    if top in LIBRARIES:
        return "" if layer in LIBRARIES[top] else f"is not for the layer {layer}"
    return "" if top in sys.stdlib_module_names else "is no dependency of dryfit"


def faults(package: Path) -> list[str]:
    """List every import that breaks the map, and every folder or file that the map lacks."""
    entries = [entry for entry in sorted(package.iterdir()) if entry.name != "__pycache__"]
    found = [
        f"{entry.name}: not on the map of layers"
        for entry in entries
        if entry.name not in (LAYERS if entry.is_dir() else TOP)
    ]
    for layer in (entry.name for entry in entries if entry.name in LAYERS):
        for path in sorted((package / layer).rglob("*.py")):
            for one in imports(path.read_text(encoding="utf-8")):
                wrong = fault(layer, one)
                if wrong:
                    place = path.relative_to(package).as_posix()
                    found.append(f"{place}:{one.line}: {one.name} {wrong}")
    return found


def test_layers_import_downward_only() -> None:
    """A formula can be trusted and tried without the screens, files and drawings above it."""
    assert faults(SOURCE) == []


@pytest.mark.parametrize("layer", LAYERS)
def test_map_has_no_ring(layer: str) -> None:
    """The map itself points downward: a layer may only import one written before it."""
    order = list(LAYERS)
    lower = {name.partition(".")[0] for name in LAYERS[layer] - {"__version__"}}
    lower |= FOR_TYPES.get(layer, set())
    assert lower <= set(order[: order.index(layer)])


@pytest.mark.parametrize(
    ("place", "code", "told"),
    [
        ("mechanics/a.py", "from dryfit.model.parts import Part", "mechanics/a.py:1: dryfit.model"),
        ("model/a.py", "from dryfit import mechanics", "model/a.py:1: dryfit.mechanics is not for"),
        ("model/a.py", "def f():\n    import dryfit.app.x", "model/a.py:2: dryfit.app.x is not"),
        ("shape/a.py", "import dryfit.solve", "dryfit.solve is not for the layer shape"),
        ("document/a.py", "from dryfit import *", "dryfit.* is not for the layer document"),
        ("ask/a.py", "import dryfit", "dryfit is not for the layer ask"),
        ("ask/a.py", "from dryfit.mechanics.fits import push", "is not for the layer ask"),
        ("bench/a.py", "from dryfit.ask.cause import blame", "dryfit.ask.cause.blame is not for"),
        ("bench/a.py", "from dryfit.ask.variants_of import x", "is not for the layer bench"),
        ("plan/a.py", "from dryfit.lists import oil", "dryfit.lists.oil is not for the layer plan"),
        ("draw/a.py", "from dryfit.ask.expect import expect", "is not for the layer draw"),
        ("draw/a.py", "if not TYPE_CHECKING:\n    from dryfit.ask import x", "for the layer draw"),
        ("store/deep/a.py", "from ..solve import z", "store/deep/a.py:1: ..solve.z is relative"),
        ("model/a.py", "from .parts import Part", "is relative; write it from dryfit on"),
        ("document/a.py", "import numpy as np", "numpy is not for the layer document"),
        ("solve/a.py", "from yaml import load", "yaml.load is not for the layer solve"),
        ("plan/a.py", "import click", "click is not for the layer plan"),
        ("ask/a.py", "import importlib\nimportlib.import_module('dryfit.app')", "importlib is not"),
        ("ask/a.py", "x = __import__('dryfit.app')", "importlib is not for the layer ask"),
        ("solve/a.py", "import scipy.optimize", "scipy.optimize is no dependency of dryfit"),
        ("extras/a.py", "", "extras: not on the map of layers"),
        ("helpers.py", "", "helpers.py: not on the map of layers"),
    ],
)
def test_planted_import_is_found(tmp_path: Path, place: str, code: str, told: str) -> None:
    """An import that breaks the map is named with its file and line, so it cannot slip in."""
    plant(tmp_path, place, code)
    (only,) = faults(tmp_path)
    assert told in only


@pytest.mark.parametrize(
    ("place", "code"),
    [
        ("quantities/a.py", "import re\nfrom dryfit.quantities.finding import Finding"),
        ("solve/a.py", "import numpy as np\nfrom dryfit.mechanics.fits import push"),
        ("bench/a.py", "from dryfit.ask.variants import variants\nfrom dryfit.ask import variants"),
        ("draw/a.py", "if TYPE_CHECKING:\n    from dryfit.ask.expect import Expected"),
        ("app/cli/a.py", "import click\nfrom dryfit import __version__, plan"),
        ("__main__.py", "from dryfit.app.cli.main import main"),
    ],
)
def test_import_in_order_passes(tmp_path: Path, place: str, code: str) -> None:
    """What the map allows is not complained of."""
    plant(tmp_path, place, code)
    assert faults(tmp_path) == []


def plant(package: Path, place: str, code: str) -> None:
    """Write one module into a tree that has nothing else but two ordinary files."""
    (package / "__init__.py").touch()
    path = package / place
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(code, encoding="utf-8")
