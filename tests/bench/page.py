"""The tables of docs/virtual-bench.md, from the bench itself.

Made anew by: python run.py prove tests/bench/test_page.py --remake-schemas
"""

from collections.abc import Iterator
from pathlib import Path

from tests.bench.otherwise import (
    DEMOS_WITH_A_CHANCE,
    MODELS,
    OTHERWISE,
    TWICE,
    WHOLE,
    WRONG,
    Bench,
    came,
    told,
    within,
)
from tests.bench.test_chance import ROUTES, came_right, found
from tests.bench.test_readings import CHECKS, touches_nothing

PAGE = Path(__file__).resolve().parents[2] / "docs" / "virtual-bench.md"
BAND_UNITS, UNITS = 2_000, 4_000

Rows = list[tuple[str, ...]]


def page() -> str:
    """Write the page with all its tables made anew."""
    text = PAGE.read_text(encoding="utf-8")
    for name, make in TABLES.items():
        before, _, rest = text.partition(f"<!-- {name} -->\n")
        _, end, after = rest.partition(f"<!-- end of {name} -->")
        table = "".join(f"| {' | '.join(row)} |\n" for row in _ruled(make()))
        text = f"{before}<!-- {name} -->\n{table}{end}{after}"
    return text


def _ruled(rows: Rows) -> Iterator[tuple[str, ...]]:
    yield rows[0]
    yield ("---",) * len(rows[0])
    yield from rows[1:]


def _bands() -> Rows:
    """Readings within their bands."""
    rows: Rows = [("demo", "check", "as told", "cover, angles", "shared whole", "shared twice")]
    rows[0] += ("all, nothing wrong", "all, every unit")
    alone = (Bench(), Bench("steeper"), Bench("", WHOLE), Bench("", TWICE))
    for name, check in CHECKS:
        often = ", often nothing" if touches_nothing(name, check) else ""
        shares = [within(name, check, bench, units=BAND_UNITS)[0] for bench in alone]
        shares += within(name, check, OTHERWISE, units=BAND_UNITS)
        rows.append((name, check + often, *map(_in_100, shares)))
    return rows


def _routes() -> Rows:
    """First figure of every route."""
    rows: Rows = [("demo", "setting", "route", "told", "came right", "cover, angles steeper")]
    rows[0] += ("cover, angles flatter", "shared whole", "flatter, whole", "shared twice")
    benches = (Bench(), Bench("steeper"), Bench("flatter"), Bench("", WHOLE))
    for name, part, route in ROUTES:
        one = found(name, part, UNITS)[route]
        shares = [
            came_right(name, part, one, UNITS, MODELS[bench.model].get(name, ()), bench.shared)
            for bench in (*benches, Bench("flatter", WHOLE), Bench("", TWICE))
        ]
        rows.append((name, part, route, *map(_in_100, (one.chance or 0.0, *shares))))
    return rows


def _seconds() -> Rows:
    """Second figure, told, and what came of it."""
    rows: Rows = [("demo", "bench", "by sizes", "with the table", "with 20 wrong", "came right")]
    rows[0] += ("wrong from the start", "no check read", "wrong ones shown")
    benches = {"20 wrong": Bench(wrong=WRONG)}
    for shared, name in ((WHOLE, "whole"), (TWICE, "twice")):
        for model in ("steeper", "flatter"):
            benches[f"all, {name}, {model}"] = Bench(model, shared, WRONG)
    for case in DEMOS_WITH_A_CHANCE:
        for name, bench in benches.items():
            rows.append((case, name, *_second(case, bench)))
    return rows


def _second(case: str, bench: Bench) -> Iterator[str]:
    one, late = told(case), came(case, bench)
    yield from map(_in_100, (one.by_sizes, one.usual, one.second, late.read))
    reads = any(route.check is not None for route in one.routes.values())
    yield _in_100(came(case, bench, early=True).read) if reads else ""
    yield from map(_in_100, (late.unread, late.found))


def _in_100(share: float) -> str:
    return f"{100 * share:.1f}"


TABLES = {"bands": _bands, "routes": _routes, "second figure": _seconds}
