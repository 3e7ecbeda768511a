"""Mutants of the formulas: one sign or operator flipped at a time, and whether a case notices.

A mutant's code is put in the place of the function's own, so that all who call it get it, and the
cases that reach the function are run. Nothing else counts: no doctest, no test of another kind.
"""

import ast
import copy
import importlib
import inspect
import sys
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from types import CodeType, FrameType, FunctionType, ModuleType
from typing import Any

from tests.checks.formula_cases import ALL_CASES, FormulaCase

from dryfit import mechanics
from dryfit.mechanics.formula import Formula

FOLDER = Path(mechanics.__file__).parent
LEFT_OUT = {"__init__", "formula", "tables", "instruments"}
"""No formulas in the first three; the last has its values in checks/instruments.toml."""

FLIPPED: dict[type[ast.AST], type[ast.AST]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.Pow: ast.Mult,
    ast.USub: ast.UAdd,
    ast.Lt: ast.Gt,
    ast.Gt: ast.Lt,
    ast.LtE: ast.GtE,
    ast.GtE: ast.LtE,
}

Key = tuple[str, str]
"""Module and function."""


@dataclass(frozen=True)
class Mutant:
    """One flip: where, what it reads before and after, and the code with it."""

    key: Key
    told: str
    code: CodeType

    @property
    def name(self) -> str:
        """Name it as docs/mutants.md does."""
        return f"{'.'.join(self.key)}: {self.told}"


def functions(module: ModuleType) -> Iterator[tuple[Key, ast.FunctionDef, FunctionType]]:
    """Walk the functions of a module, private ones too, with what runs them."""
    tree = ast.parse(inspect.getsource(module))
    short = module.__name__.rpartition(".")[2]
    for node in tree.body:
        if isinstance(node, ast.FunctionDef):
            held = getattr(module, node.name)
            own: Any = held.function if isinstance(held, Formula) else held
            yield (short, node.name), node, own


def modules() -> list[ModuleType]:
    """Import all modules with formulas."""
    names = sorted(path.stem for path in FOLDER.glob("*.py") if path.stem not in LEFT_OUT)
    return [importlib.import_module(f"dryfit.mechanics.{name}") for name in names]


def flips(function: ast.FunctionDef) -> Iterator[tuple[str, ast.FunctionDef]]:
    """Make every mutant of a function's body."""
    count = sum(1 for _ in _sites(function))
    for at in range(count):
        changed = copy.deepcopy(function)
        node, holder, place = list(_sites(changed))[at]
        before = ast.unparse(node)
        _flip(holder, place)
        yield f"`{before}` as `{ast.unparse(node)}`", changed


def _sites(function: ast.FunctionDef) -> Iterator[tuple[ast.AST, Any, int | None]]:
    for statement in function.body:
        for node in ast.walk(statement):
            if type(getattr(node, "op", None)) in FLIPPED:
                yield node, node, None
            for place, sign in enumerate(getattr(node, "ops", [])):
                if type(sign) in FLIPPED:
                    yield node, node, place


def _flip(holder: Any, place: int | None) -> None:
    if place is None:
        holder.op = FLIPPED[type(holder.op)]()
    else:
        holder.ops[place] = FLIPPED[type(holder.ops[place])]()


def compiled(function: ast.FunctionDef, module: ModuleType) -> CodeType:
    """Compile a changed function as it would stand in its module."""
    bare = copy.deepcopy(function)
    bare.decorator_list = []
    text = ast.fix_missing_locations(ast.Module(body=[bare], type_ignores=[]))
    space = dict(vars(module))
    exec(compile(text, f"mutant of {module.__name__}", "exec"), space)
    code: CodeType = space[function.name].__code__
    return code


def reached() -> dict[CodeType, list[FormulaCase]]:
    """Run all cases once and note which code each runs through."""
    found: dict[CodeType, list[FormulaCase]] = defaultdict(list)
    for case in ALL_CASES:
        seen: set[CodeType] = set()

        def note(frame: FrameType, event: str, _: Any, seen: set[CodeType] = seen) -> None:
            if event == "call":
                seen.add(frame.f_code)

        sys.setprofile(note)
        case.missed()
        sys.setprofile(None)
        for code in seen:
            found[code].append(case)
    return found


def notices(case: FormulaCase) -> bool:
    """Tell whether a case fails; an error is a failure."""
    try:
        return bool(case.missed())
    except (ArithmeticError, LookupError, TypeError, ValueError):
        return True


def survivors() -> tuple[int, list[str]]:
    """Count the mutants and name those that no case notices."""
    cases = reached()
    count, left = 0, []
    for module in modules():
        for key, node, function in functions(module):
            own = function.__code__
            tried = cases.get(own, [])
            for told, changed in flips(node):
                mutant = Mutant(key, told, compiled(changed, module))
                count += 1
                function.__code__ = mutant.code
                if not any(notices(case) for case in tried):
                    left.append(mutant.name)
                function.__code__ = own
    return count, left


if __name__ == "__main__":
    total, kept = survivors()
    print("\n".join(kept))
    print(f"{len(kept)} of {total} survive")
