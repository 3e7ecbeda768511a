"""The sheet: an answer in words, 78 columns, plain characters, to be read aloud at the bench."""

from math import ceil
from textwrap import wrap

from dryfit.app.cli.acts import FIRST_DO, nothing_raises, raised
from dryfit.app.cli.figures import AS_TYPED, Figures, Units, figures, in_hundred
from dryfit.app.cli.needs import limits, needs
from dryfit.app.cli.nuts import nut_routes, set_nut, stands
from dryfit.app.cli.page import WIDTH, head, indented
from dryfit.app.cli.ways import READ, hopeless, routes
from dryfit.app.cli.words import CARE, HOW, SMALL_PRINT
from dryfit.app.cli.written import pieces, written_walk
from dryfit.app.usecases.answers import CheckAnswer, LackingAnswer, ReasonAnswer
from dryfit.app.usecases.choose import ChooseAnswer, RouteAnswer, SettingAnswer
from dryfit.app.usecases.written import WrittenWalkAnswer
from dryfit.ask.asking import DRAWS
from dryfit.ask.packs import MOST_PIECES
from dryfit.quantities.rounding import two_figures


def sheet(answer: ChooseAnswer, units: Units | None = None) -> str:
    """Write the whole sheet."""
    show = figures("mm" if answer.system == "mm" else "inch", units)
    blocks = [_title(answer), *_lacking(answer.lacking, show)]
    blocks += [_setting(one, answer.walks, show, _idle(answer, one)) for one in answer.settings]
    blocks += [written_walk(one, show) for one in answer.walks]
    blocks += _sure(answer)
    blocks += _checks(answer, show)
    blocks += [_ways(one, show) for one in answer.settings]
    blocks += raised(answer)
    return _joined([*blocks, *_small_print(answer)])


def raises(answer: ChooseAnswer) -> str:
    """Write what raises the chance most, and nothing else."""
    show = figures("mm" if answer.system == "mm" else "inch", None)
    blocks = [_title(answer), *_lacking(answer.lacking, show), *_sure(answer), *raised(answer)]
    if not answer.acts:
        blocks.append("\n".join(wrap(nothing_raises(answer), WIDTH)))
    return _joined([*blocks, *_small_print(answer)])


def readings(answer: ChooseAnswer, units: Units | None = None) -> str:
    """Write what every check should read, and nothing else."""
    show = figures("mm" if answer.system == "mm" else "inch", units)
    blocks = [_title(answer), *_first_look(answer), *_lacking(answer.lacking, show)]
    return _joined([*blocks, *_checks(answer, show), *_small_print(answer)])


def _first_look(answer: ChooseAnswer) -> list[str]:
    """Say how sure it is with what is tried on, and that it is a first look."""
    if not answer.first_look:
        return []
    lines = head("Tried on" if answer.first_look >= DRAWS else "Tried on: a first look")
    if answer.chance_as_it_is is not None:
        told = "All as wanted, by the sizes"
        lines += _chances(answer, told, answer.chance_as_it_is, answer.harm_as_it_is)
    good = ceil(100 / answer.first_look**0.5)  # two standard errors at most
    lines += indented(f"of {answer.first_look} units drawn, so good to {good} in 100")
    return ["\n".join(lines)]


def _joined(blocks: list[str]) -> str:
    return "\n\n".join(block for block in blocks if block) + "\n"


def _ways(one: SettingAnswer, show: Figures) -> str:
    """List the routes to one setting."""
    return nut_routes(one, one.nut, show) if one.nut is not None else routes(one, show)


def _title(answer: ChooseAnswer) -> str:
    title = wrap(answer.title or "A rebuild without a title", WIDTH)
    return "\n".join([*title, "=" * max(len(line) for line in title), *wrap(answer.notes, WIDTH)])


def _small_print(answer: ChooseAnswer) -> list[str]:
    """Say what was taken for granted, and the limits of all this."""
    guesses = []
    if answer.taken_as:
        guesses = [
            "\n".join(wrap("Taken as, since you do not say: " + "; ".join(answer.taken_as), WIDTH))
        ]
    return [*guesses, "\n".join(wrap(SMALL_PRINT, WIDTH))]


def _checks(answer: ChooseAnswer, show: Figures) -> list[str]:
    """Say what every check should read, how to read it told once."""
    now = "as tried" if answer.first_look else "as it is now"
    fitted = [_in_hand(one, show, now) for one in answer.settings]
    blocks = ["\n".join(line for line in fitted if line), *needs(answer, show)]
    first = {check.kind: check.name for check in reversed(answer.checks)}
    blocks += [_check(c, show, how=first[c.kind] == c.name) for c in answer.checks]
    return blocks


def _lacking(lacking: tuple[LackingAnswer, ...], show: Figures) -> list[str]:
    """Say what is to be measured first, and what it would change."""
    if not lacking:
        return []
    step = show.bare(0.1) if show.first == "mm" else show.bare(0.0254, 0.002)
    lines = head("Not known yet: measure this first")
    for size in lacking:
        way = "more" if size.follows > 0 else "less"
        moves = f": each {step} longer gives {step} {way} float" if size.follows else ""
        lines += indented(f"{size.key}{moves}", hang=2)
    return ["\n".join(lines)]


def _idle(answer: ChooseAnswer, one: SettingAnswer) -> str:
    """Say why nothing can be said of a setting, where it has no route."""
    if any(found.code == "want.none" for found in answer.findings):
        return "moves nothing that is wanted: say under needs: what float is wanted"
    if not answer.wanted:
        return "cannot be said until what is noted above is put right"
    if not any(one.between):
        return "moves nothing that is wanted: put it into the stack where it belongs"
    names = ", ".join(f"'{wanted.need}'" for wanted in answer.wanted)
    return f"moves nothing that is wanted ({names}): take it out of the settings, or add a need"


def _setting(
    one: SettingAnswer, walks: tuple[WrittenWalkAnswer, ...], show: Figures, idle: str
) -> str:
    """Say what to fit, where, why, and which way it works."""
    if one.nut is not None:
        return set_nut(one, one.nut, show)
    lines = head(f"Fit: {one.part}")
    begun = [walk for walk in walks if walk.part == one.part]
    lines += indented(_advice(one, show, begun) or idle, hang=2)
    if one.fitted_mm is not None:
        lines += indented(f"in now: {show.length(one.fitted_mm)}")
    if any(one.between):
        lines += indented(f"lies between {one.between[0]} and {one.between[1]}")
    lines += _sum(one, show)
    lines += _why(one, show)
    lines += indented(one.thicker, hang=2) if one.thicker else []
    return "\n".join(lines)


def _advice(one: SettingAnswer, show: Figures, begun: list[WrittenWalkAnswer]) -> str:
    """Say what to fit, or what to do first; nothing where it moves nothing."""
    route = next((r for r in one.routes if r.name == one.route), None)
    muddled = any(not walk.clear for walk in begun)
    if one.pack is not None and hopeless(route) and one.why == "drawer":
        nearest = show.length(one.pack.thickness_mm) if one.pack.thickness_mm else "none at all"
        return f"nothing that can be made will do; the nearest is {nearest}{pieces(one.pack)}"
    if one.pack is not None and one.pack.thickness_mm == 0:
        return "none"
    if one.pack is not None:
        by = f", by the {_read(route)} you read" if route and route.taken_mm is not None else ""
        by += "; but first clear up the walk: see below" if muddled else ""
        return f"{show.length(one.pack.thickness_mm)}{pieces(one.pack)}{by}"
    if route is not None and begun:
        return f"first {'clear up' if muddled else 'go on with'} the walk: see below"
    if route is not None:
        return f"first {FIRST_DO[route.name]}: see the routes below; the sum is not sure enough"
    if one.wished_mm is not None:
        return f"the sum asks for {show.length(one.wished_mm)}; nothing in the drawer comes near"
    if one.routes:
        return "cannot be said yet: measure what is not known, or go a route below"
    return ""


def _read(route: RouteAnswer) -> str:
    """Name what was read."""
    if route.trials_mm:
        return "walk"
    return READ.get(route.kind, route.name) if route.name != "difference" else route.name


ABSURD = 5.0
"""A pack further than this [mm] from any in the drawer is rather a slip in the sizes."""


def _why(one: SettingAnswer, show: Figures) -> list[str]:
    """Say why what is fitted is not what the sum asks for."""
    if one.wished_mm is None:
        return []
    if one.pack is None and not one.route and abs(one.wished_mm) > ABSURD:
        return indented(
            "Look for a slip: a size in the other unit, a minus left out or put in, a stack in "
            "the wrong order.",
            hang=2,
        )
    if one.wished_mm < 0:
        return indented(
            f"No pack gives that: another part must make up {show.length(-one.wished_mm)}.", hang=2
        )
    if one.why == "harm":
        return indented(
            "Not the nearest to the sum: that one would bind in more than 2 builds in 100.", hang=2
        )
    if one.why == "drawer":
        return indented(_short(one, one.wished_mm, show), hang=2)
    return []


def _short(one: SettingAnswer, wished: float, show: Figures) -> str:
    """Say by how much the drawer misses what the sum asks for, and what would make it."""
    off = (one.pack.thickness_mm if one.pack else 0.0) - wished
    missed = f"{show.length(abs(off))} too {'thick' if off > 0 else 'thin'}"
    most = f" with {MOST_PIECES} pieces, the most that are stacked" if _stacked_high(one) else ""
    return (
        f"The drawer comes no nearer to what the sum asks for{most}: {missed}. Get what makes "
        f"{show.length(wished)}."
    )


def _stacked_high(one: SettingAnswer) -> bool:
    return one.pack is not None and len(one.pack.pieces) >= MOST_PIECES


def _sum(one: SettingAnswer, show: Figures) -> list[str]:
    """Write the sum that gives the pack, one size a line."""
    if not one.terms:
        return []
    rows = [(show.bare(term.value_mm), term.label) for term in one.terms]
    total = sum(term.value_mm for term in one.terms)
    wide = max(len(figure) for figure, _ in rows)
    lines = [f"    {figure:>{wide}}  {label}" for figure, label in rows]
    return [*lines, f"    {show.bare(total):>{wide}}  by the sum of sizes"]


def _advised(answer: ChooseAnswer) -> str:
    turned = all(one.nut is not None for one in answer.settings)
    return "Set as told above" if turned else "With the pack above"


def _in_hand(one: SettingAnswer, show: Figures, now: str) -> str:
    """Say which pack the readings are for."""
    if one.in_hand_mm is None:
        return f"The readings below are with no {one.part}, as none can be chosen yet."
    how = f"in, {now}" if one.fitted_mm is not None else "fitted"
    if one.pack is None and one.fitted_mm is None:
        how = "fitted, by the sum of sizes; put in fitted: what you make it, and ask again"
    if one.nut is not None:
        to = stands(one.in_hand_mm - one.nut.locking_mm, show)
        at = f"{one.part} set to {to}" + (f", {now}" if one.fitted_mm is not None else "")
        return "\n".join(wrap(f"The readings below are with {at}.", WIDTH))
    text = f"The readings below are with {show.length(one.in_hand_mm)} of {one.part} {how}."
    return "\n".join(wrap(text, WIDTH))


def _sure(answer: ChooseAnswer) -> list[str]:
    """Say the first-time chance, of the advice and of what is in now."""
    lines = head("How sure")
    as_it_is = answer.chance_as_it_is
    by = "the sizes and the walk" if any(walk.pack for walk in answer.walks) else "the sizes"
    if any(c.read and "explain" in c.read.verdict for c in answer.checks):
        lines += indented(
            "A reading below does not fit your sizes. Find out why first: until then these "
            "chances do not hold."
        )
    if as_it_is is not None:
        lines += _chances(answer, f"As it is now, by {by}", as_it_is, answer.harm_as_it_is)
    if answer.chance is not None and not (as_it_is is not None and _stays(answer.settings)):
        fresh = f"That it closes up right first time, by {by}"
        told = fresh if as_it_is is None else _advised(answer)
        lines += _chances(answer, told, answer.chance, answer.harm)
    lines += _usual(answer)
    return ["\n".join(lines)] if len(lines) > 2 else []


def _usual(answer: ChooseAnswer) -> list[str]:
    """Say the second figure, how far it may be off, and what costs most."""
    usual = answer.usual
    if usual is None:
        return []
    as_it_is = answer.chance_as_it_is
    told = "With" if as_it_is is None else "As it is now, with"
    lines = indented(
        f"{told} what usually goes wrong: {in_hundred(usual.chance)} (estimate; "
        f"{in_hundred(usual.double)} if twice as much goes wrong)"
    )
    if usual.chance - usual.unchecked > AS_GOOD:
        lines += indented(f"and the checks not read: {in_hundred(usual.unchecked)}", by=4)
    by_sizes = answer.chance if as_it_is is None else as_it_is
    if usual.slips and (by_sizes or 0.0) - usual.chance > AS_GOOD / 2:
        words = "; ".join(slip.words for slip in usual.slips)
        lines += indented(f"look for: {words}", by=4, hang=2)
    return lines


AS_GOOD = 0.01
"""Chances so near to each other are not told apart."""


def _stays(settings: tuple[SettingAnswer, ...]) -> bool:
    """Tell whether what is in now is what should be in."""
    return all(
        one.fitted_mm is not None
        and one.pack is not None
        and abs(one.pack.thickness_mm - one.fitted_mm) < SAME
        for one in settings
    )


SAME = 0.001
"""Packs that differ by less [mm] are the same."""


def _chances(answer: ChooseAnswer, told: str, chance: float, harm: float | None) -> list[str]:
    """Say a chance and the harm beside it."""
    lines = indented(f"{told}: {in_hundred(chance)}")
    if harm is not None:
        when = "when it is warm" if answer.hot else "cold"
        harmed = "is pressed too hard" if any(n.force for n in answer.needs) else "binds"
        lines += indented(f"that it {harmed} {when}: {in_hundred(harm)}", by=4)
    return lines


def _check(check: CheckAnswer, show: Figures, *, how: bool) -> str:
    """Say what a check should read and what more and less would mean."""
    state = "" if check.state in ("built", *check.name.split(", ")) else f", {check.state}"
    lines = head(f"Check: {check.name}{state}")
    lines += indented(f"{check.kind} of {check.what}, by {check.by}: ____________")
    if check.cannot:
        told = f"cannot be read: {check.cannot}; {check.way_out}"
        return "\n".join([*lines, *indented(told)])
    if check.force:
        low, high, typed = (
            two_figures(force)
            for force in (check.force.low_n, check.force.high_n, check.force.expected_n)
        )
        lines += indented(f"should show {typed} N; nine times in ten {low} to {high} N")
    elif check.expected_mm is None or check.low_mm is None or check.high_mm is None:
        names = ", ".join(size.key for size in check.lacking)
        return "\n".join([*lines, *indented(f"cannot be said until this is measured: {names}")])
    else:
        lines += _length(check, check.expected_mm, (check.low_mm, check.high_mm), show)
    lines += _wanted(check, show)
    lines += _reading(check, show)
    lines += indented(HOW[check.kind]) if how else []
    lines += _reasons("if more", check.more, show) + _reasons("if less", check.less, show)
    lines += indented(f"Care: {CARE[check.kind]}") if how else []
    return "\n".join(lines)


def _length(
    check: CheckAnswer, expected: float, band: tuple[float, float], show: Figures
) -> list[str]:
    """Say what a dial or feeler should read."""
    coarse = AS_TYPED if check.by == "feelers" else 0.004
    half = max((band[1] - band[0]) / 2, coarse)
    lines = indented(
        f"should read {show.bare(expected, half)}; nine times in ten {show.band(*band, half)}"
    )
    if check.nipped_by_mm > 0.0005:
        lines += indented(
            f"no float: the rows are pressed together by {show.length(check.nipped_by_mm, 0.002)}; "
            "the dial shows only what they yield under the push"
        )
    elif check.too_long_by_mm > 0.0005:
        lines += indented(
            f"the parts are {show.length(check.too_long_by_mm, half)} too long for their room: "
            "it binds, or a cover stands off"
        )
    return lines


def _wanted(check: CheckAnswer, show: Figures) -> list[str]:
    """Say what is wanted, who says so, and how likely it is met."""
    wanted = check.wanted
    if wanted is None:
        return []
    chance = "" if check.within is None else f"; {in_hundred(check.within)} to be within"
    return indented(f"wanted {limits(wanted, show)} ({wanted.source}){chance}")


def _reading(check: CheckAnswer, show: Figures) -> list[str]:
    """Say what is to be made of a reading that was taken."""
    read = check.read
    if read is None:
        return []
    if read.value_mm is None or read.off_mm is None:
        value, size = f"{read.value_n:.3g} N", f"{abs(read.off_n or 0.0):.2g} N"
    else:
        value, size = show.length(read.value_mm), show.length(abs(read.off_mm))
    off = f" by {size}" if "explain" in read.verdict else ""
    lines = indented(f"READ {value}: {read.verdict}{off}", hang=2)
    return lines + (indented(read.wanted, by=4) if read.wanted else [])


def _reasons(head: str, reasons: tuple[ReasonAnswer, ...], show: Figures) -> list[str]:
    """List what would make it read more or less."""
    words = []
    false = [reason for reason in reasons if reason.words.startswith("false reading")]
    others = [reason for reason in reasons if reason not in false]
    for reason in (*others[:MOST], *false):
        change = reason.change_mm
        amount = "" if change is None else f" ({show.bare(abs(change))})"
        words.append(reason.words + amount)
    if len(others) > MOST:
        words.append(f"{len(others) - MOST} more with --json")
    return indented(f"{head}: {'; '.join(words)}", hang=2) if words else []


MOST = 6
"""So many reasons of one reading are read aloud."""
