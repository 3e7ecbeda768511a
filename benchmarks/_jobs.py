"""Jobs drawn at random to measure plans on: any steps, and three shafts built from both ends."""

import random
from itertools import pairwise

from dryfit.plan.actions import Act, Job, Risk, Step, Way


def put(name: str, *after: str, minutes: float = 1.0, undo: float = 1.0) -> Step:
    """Give a step that adds something."""
    return Step(name=name, after=frozenset(after), minutes=minutes, undo=undo)


def check(name: str, *after: str, shut_by: str = "", minutes: float = 3.0) -> Step:
    """Give a check, which one step may hide."""
    ways = (Way("any", frozenset({shut_by})),) if shut_by else ()
    return Step(name=name, act=Act.READ, after=frozenset(after), ways=ways, minutes=minutes)


def drawn_job(seed: int, steps: int, checks: int, density: float, *, twice: bool = True) -> Job:
    """Draw a job at random.

    Any two steps are in order with a chance, `density`. Each check wants three steps, in two of
    which something may go wrong, and a later step hides it. Some slips are shown by two checks.
    """
    luck = random.Random(seed)
    names = [f"a{n}" for n in range(steps)]
    after = {
        name: [names[m] for m in range(n) if luck.random() < density]
        for n, name in enumerate(names)
    }
    made = [put(n, *after[n], minutes=luck.randint(1, 5), undo=luck.randint(1, 5)) for n in names]
    wants: dict[str, list[int]] = {}
    risks: dict[tuple[str, int], Risk] = {}
    for number in range(checks):
        name = f"c{number}"
        wants[name] = sorted(luck.sample(range(steps - 1), 3))
        hides = names[luck.randrange(wants[name][-1] + 1, steps)]
        made.append(check(name, *(names[n] for n in wants[name]), shut_by=hides))
        for born in luck.sample(wants[name], 2):
            chance = luck.choice([0.02, 0.05, 0.1, 0.2])
            risks[name, born] = Risk(f"{name}.{born}", chance, names[born], {name: 1.0})
    if twice:
        for (name, born), risk in list(risks.items()):
            more = [other for other, w in wants.items() if other != name and born in w]
            risks[name, born] = Risk(
                risk.words, risk.chance, risk.born, dict.fromkeys([name, *more[:1]], 1.0)
            )
    return Job(tuple(made), tuple(risks.values()))


def three_shafts(seed: int = 1) -> Job:
    """Draw three shafts of 20 steps, each built up from both its ends, with 13 checks in all."""
    luck = random.Random(seed)
    steps: list[Step] = []
    risks: list[Risk] = []
    for shaft in "ABC":
        root = f"{shaft} shaft"
        steps.append(put(root))
        for side in "LR":
            stack = [root, *(f"{shaft}{side}{n}" for n in range(1, 10))]
            steps += [put(name, below) for below, name in pairwise(stack)]
            for at in sorted(luck.sample(range(2, 8), 2)):
                name = f"{stack[at]} read"
                steps.append(check(name, stack[at], shut_by=stack[luck.randint(at + 1, 9)]))
                for born in luck.sample(stack[: at + 1], 2):
                    chance = luck.choice([0.02, 0.05, 0.1, 0.2])
                    risks.append(Risk(f"{name}, {born}", chance, born, {name: 1.0}))
        steps.append(put(f"{shaft} in case", f"{shaft}L9", f"{shaft}R9"))
    final = check("turns free", *(f"{shaft} in case" for shaft in "ABC"))
    risks.append(Risk("case strained", 0.05, "A in case", {final.name: 1.0}))
    return Job((*steps, final), tuple(risks))
