"""Jobs to try plans on: small drawn ones, and a right-angle head with 20 steps and 8 checks.

Large ones are those of the benchmarks.
"""

from collections.abc import Iterator

from benchmarks._jobs import check, put
from hypothesis import strategies as st

from dryfit.plan.actions import Job, Risk, Step, Way
from dryfit.plan.cost import Costs


@st.composite
def jobs(draw: st.DrawFn, *, most: int = 6) -> Job:
    """Draw small jobs: two ways to some steps, checks that miss, stations."""
    count = draw(st.integers(3, most))
    names = [f"a{n}" for n in range(count)]
    steps = []
    for n, name in enumerate(names):
        after = draw(st.frozensets(st.sampled_from(names[:n]), max_size=2)) if n else frozenset()
        ways: tuple[Way, ...] = ()
        if n + 1 < count and draw(st.booleans()):
            later = st.frozensets(st.sampled_from(names[n + 1 :]), max_size=2)
            ways = (Way("left", draw(later)), Way("right", draw(later)))
        station = draw(st.sampled_from(["", "bench", "press"]))
        minutes = draw(st.integers(1, 5))
        steps.append(
            Step(name=name, after=after, ways=ways, station=station, minutes=minutes, undo=1)
        )
    risks = []
    for n in range(draw(st.integers(0, 3))):
        wants = draw(st.lists(st.sampled_from(names[:-1]), min_size=1, max_size=2, unique=True))
        behind = names[max(names.index(want) for want in wants) + 1 :]
        hides = draw(st.sampled_from(["", *behind]))
        steps.append(check(f"c{n}", *wants, shut_by=hides))
        chance = draw(st.sampled_from([0.05, 0.2, 0.5]))
        shown = draw(st.sampled_from([1.0, 0.7]))
        risks.append(Risk(f"r{n}", chance, wants[0], {f"c{n}": shown}))
    if draw(st.booleans()):
        risks.append(Risk("never shown", 0.1, draw(st.sampled_from(names)), {}))
    return Job(tuple(steps), tuple(risks))


def all_orders(costs: Costs) -> Iterator[tuple[float, tuple[int, ...]]]:
    """Go every order there is, with what it costs: no thought, only patience."""
    masks = costs.masks

    def go(done: int, order: tuple[int, ...]) -> Iterator[tuple[float, tuple[int, ...]]]:
        if done == masks.full:
            yield costs.of(order), order
        for step in range(len(masks.names)):
            wanted = masks.needs[step]
            open_ = any(not shut & done for shut in masks.ways[step])
            if not done >> step & 1 and not wanted & ~done and open_:
                yield from go(done | 1 << step, (*order, step))

    yield from go(0, ())


STEPS = {
    "rear ring on pinion": (8, 10),
    "spacer on": (2, 2),
    "outer rings in cartridge": (10, 12),
    "pinion into cartridge": (4, 4),
    "front ring on": (8, 10),
    "nut by hand": (2, 2),
    "nut tight and locked": (6, 5),
    "seal in cover": (5, 6),
    "cartridge cover": (6, 5),
    "cartridge with shim": (8, 8),
    "cartridge bolts": (6, 5),
    "key in output": (2, 3),
    "crown on output": (10, 15),
    "left bearing on": (8, 10),
    "right bearing on": (8, 10),
    "output into housing": (6, 6),
    "left cover": (6, 5),
    "right cover": (6, 5),
    "grease": (5, 12),
    "end cap": (5, 6),
}
AFTER = {
    "spacer on": ["rear ring on pinion"],
    "pinion into cartridge": ["spacer on", "outer rings in cartridge"],
    "front ring on": ["pinion into cartridge"],
    "nut by hand": ["front ring on"],
    "nut tight and locked": ["nut by hand"],
    "cartridge cover": ["nut tight and locked", "seal in cover"],
    "cartridge with shim": ["pinion into cartridge"],
    "cartridge bolts": ["cartridge with shim", "cartridge cover"],
    "crown on output": ["key in output"],
    "left bearing on": ["crown on output"],
    "right bearing on": ["crown on output"],
    "output into housing": ["left bearing on", "right bearing on", "cartridge bolts"],
    "left cover": ["output into housing"],
    "right cover": ["output into housing"],
    "grease": ["left cover", "right cover"],
    "end cap": ["grease"],
}
CHECKS = {
    "stack height": (3, ["spacer on"], "pinion into cartridge"),
    "feeler at front ring": (3, ["front ring on"], "cartridge cover"),
    "pinion drag and float": (5, ["nut tight and locked"], "cartridge cover"),
    "mounting distance": (8, ["cartridge bolts"], "output into housing"),
    "crown run-out": (5, ["crown on output"], "output into housing"),
    "output float": (4, ["left cover", "right cover"], "grease"),
    "backlash": (5, ["left cover", "right cover"], "end cap"),
    "contact pattern": (8, ["left cover", "right cover"], "grease"),
}
RISKS = {
    "spacer swapped": (0.10, "spacer on", ["stack height", "pinion drag and float"]),
    "rear ring not home": (0.06, "rear ring on pinion", ["pinion drag and float", "backlash"]),
    "front ring not home": (
        0.08,
        "front ring on",
        ["feeler at front ring", "pinion drag and float"],
    ),
    "bearing turned round": (0.04, "outer rings in cartridge", ["pinion drag and float"]),
    "clamp too low": (0.07, "nut tight and locked", ["pinion drag and float", "backlash"]),
    "shim wrong": (0.25, "cartridge with shim", ["mounting distance", "contact pattern"]),
    "burr under crown": (0.08, "crown on output", ["crown run-out", "contact pattern"]),
    "output shims wrong": (0.20, "left cover", ["output float", "backlash"]),
}


def right_angle_head() -> Job:
    """Give the head: a pinion in its cartridge, a crown wheel on the output shaft."""
    steps = [put(n, *AFTER.get(n, ()), minutes=t, undo=u) for n, (t, u) in STEPS.items()]
    steps += [check(n, *w, shut_by=h, minutes=t) for n, (t, w, h) in CHECKS.items()]
    risks = [Risk(n, q, born, dict.fromkeys(by, 1.0)) for n, (q, born, by) in RISKS.items()]
    return Job(tuple(steps), tuple(risks))
