"""What keeps a job from having any order at all, all at once: `tangles`.

Reading order: names that are no steps, rings of steps each before the next, ways that are shut
before a step can be done, risks that a check is asked for too early.
"""

from collections.abc import Iterator

from dryfit.plan.actions import Job, Step
from dryfit.plan.masks import Masks, bits, masks_of
from dryfit.quantities import Finding
from dryfit.quantities.finding import Place, near


def tangles(job: Job) -> tuple[Finding, ...]:
    """List what is wrong with a job; nothing when it has an order.

    Examples
    --------
    >>> from dryfit.plan.actions import Pin, Wishes
    >>> steps = Step(name="ring"), Step(name="nut", after=frozenset({"ring"}))
    >>> (found,) = tangles(Job(steps, wishes=Wishes(pins=(Pin("nut", "ring"),))))
    >>> found.message
    "'ring' before 'nut', 'nut' before 'ring': no order has both; pinned: 'nut' before 'ring'"
    """
    names = [*_twice(job), *_unknown(job), *_chances(job)]
    if any(finding.code == "plan.twice" for finding in names):
        return tuple(names)
    masks = masks_of(job)
    turns = any(before >> step & 1 for step, before in enumerate(masks.wanted))
    shut = [*_no_way(job), *(() if turns else _hidden(job, masks))]
    ring = None if shut else _ring(job, masks)
    locked = [] if shut or ring else [*_locked(job, masks)]
    early = [] if ring else [*_too_early(job, masks)]
    return (*names, *shut, *([ring] if ring else locked), *early)


def _twice(job: Job) -> Iterator[Finding]:
    names = [step.name for step in job.steps]
    for step in job.wishes.steps:
        if names.count(step.name) > 1:
            yield Finding(
                "plan.twice",
                step.place,
                f"there is a step '{step.name}' already",
                "name it another",
            )


def _mentions(job: Job) -> Iterator[tuple[str, str, Place]]:
    """List every name that should be a step: who says it, the name, and where."""
    for step in job.steps:
        for name in sorted(step.after.union(*(way.shut_by for way in step.ways))):
            yield f"'{step.name}'", name, step.place
    for pin in job.wishes.pins:
        for name in (pin.first, pin.then):
            yield "a pin", name, pin.place
    for ban in job.wishes.bans:
        yield "a ban", ban.step, ban.place
    for risk in job.risks:
        for name in (risk.born, *risk.seen):
            yield f"'{risk.words}'", name, ()


def _unknown(job: Job) -> Iterator[Finding]:
    known = job.named
    for who, name, place in _mentions(job):
        if name not in known:
            message = f"{who} names a step '{name}', which is not there"
            yield Finding("plan.unknown step", place, message, near(name, known))
    for ban in job.wishes.bans:
        step = known.get(ban.step)
        ways = [way.name for way in step.ways] if step else []
        if step and ban.way not in ways:
            message = f"'{ban.step}' has no way '{ban.way}'"
            way_out = near(ban.way, ways) or "nothing shuts the way to it: take the wish out"
            yield Finding("plan.unknown way", ban.place, message, way_out)


def _chances(job: Job) -> Iterator[Finding]:
    for risk in job.risks:
        shares = [("chance", risk.chance), *risk.seen.items()]
        for what, share in shares:
            if not 0 <= share <= 1:
                message = f"'{risk.words}': {share:g} by '{what}' is no chance"
                yield Finding("plan.chance", (), message, "give a share from 0 to 1")


def _ring(job: Job, masks: Masks) -> Finding | None:
    """Name the steps of a ring, each of which has to come before the next."""
    ring = _find_ring(masks)
    if not ring:
        return None
    names = [masks.names[step] for step in ring]
    pairs = list(zip(names, [*names[1:], names[0]], strict=True))
    told = ", ".join(f"'{a}' before '{b}'" for a, b in pairs)
    pins = [pin for pin in job.wishes.pins if (pin.first, pin.then) in pairs]
    pinned = ", ".join(f"'{pin.first}' before '{pin.then}'" for pin in pins)
    none = "no order has both" if len(pairs) == 2 else "no order has all of these"
    message = f"{told}: {none}" + (f"; pinned: {pinned}" if pins else "")
    way_out = "take out the pin" if len(pins) == 1 else "take out one of them"
    return Finding("plan.ring", pins[0].place if pins else (), message, way_out)


def _find_ring(masks: Masks) -> list[int]:
    """Walk back from a step that has to come before itself until one is met again."""
    turning = [step for step, before in enumerate(masks.ahead) if before >> step & 1]
    if not turning:
        return []
    inside = sum(1 << step for step in turning)
    walked: list[int] = []
    step = turning[0]
    while step not in walked:
        walked.append(step)
        step = next(bits(masks.straight[step] & inside & _same_ring(masks, step)))
    ring = walked[walked.index(step) :][::-1]
    start = ring.index(min(ring))
    return ring[start:] + ring[:start]


def _same_ring(masks: Masks, step: int) -> int:
    """Give the steps that come both before and after one."""
    return masks.ahead[step] & masks.behind[step]


def _no_way(job: Job) -> Iterator[Finding]:
    for step in job.steps:
        if step.ways and not job.ways(step):
            place = next(ban.place for ban in job.wishes.bans if ban.step == step.name)
            ways = ", ".join(way.name for way in step.ways)
            message = f"'{step.name}' has no way left: {ways} - none may be used"
            yield Finding("plan.no way", place, message, "allow one of them")


def _hidden(job: Job, masks: Masks) -> Iterator[Finding]:
    """Find steps that want what shuts every way to them."""
    for number, step in enumerate(job.steps):
        hides = [shut & masks.wanted[number] for shut in masks.ways[number]]
        if hides and all(hides):
            told = "; ".join(
                f"{way.name}: {_listed(masks, shut)}"
                for way, shut in zip(job.ways(step), hides, strict=True)
            )
            message = f"'{step.name}' wants what {'hides' if step.reads else 'shuts'} it ({told})"
            wished = [pin.place for pin in job.wishes.pins if pin.then == step.name]
            wished += [ban.place for ban in job.wishes.bans if ban.step == step.name]
            place = step.place or next((place for place in wished if place), ())
            yield Finding("plan.hidden", place, message, _other_way(step))


def _other_way(step: Step) -> str:
    if step.reads:
        return "read it earlier, with less in place, or another way"
    return "leave a way to it open, or do it earlier"


def _locked(job: Job, masks: Masks) -> Iterator[Finding]:
    """Name the steps of which none can be the last one left."""
    left = masks.locked()
    if left:
        each = "; ".join(
            f"'{masks.names[step]}' is stopped by {_hinders(job, masks, step, left)}"
            for step in bits(left)
        )
        message = f"no order has all of {_listed(masks, left)}: {each}"
        yield Finding("plan.locked", (), message, "one of them needs another way")


def _hinders(job: Job, masks: Masks, step: int, left: int) -> str:
    ways = zip(job.ways(job.steps[step]), masks.ways[step], strict=True)
    told = [f"{_listed(masks, shut & left)} ({way.name})" for way, shut in ways if shut & left]
    wanted = [n for n in bits(left) if masks.needs[n] >> step & 1]
    return " and ".join([*told, *(f"'{masks.names[n]}', which sits on it" for n in wanted)])


def _listed(masks: Masks, mask: int) -> str:
    return ", ".join(f"'{name}'" for name in masks.told(mask))


def _too_early(job: Job, masks: Masks) -> Iterator[Finding]:
    """Find checks that may come before what they are to show."""
    for risk in job.risks:
        for check in risk.seen:
            if check in masks.at and risk.born in masks.at:
                born = masks.at[risk.born]
                if not masks.ahead[masks.at[check]] >> born & 1:
                    message = (
                        f"'{check}' is to show '{risk.words}', but may come before '{risk.born}'"
                    )
                    way_out = f"let '{check}' come after '{risk.born}', or split the risk"
                    yield Finding("plan.too early", job.named[check].place, message, way_out)
