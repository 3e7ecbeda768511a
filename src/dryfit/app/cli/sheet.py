"""The sheet: an answer in words, 78 columns, plain characters, to be read aloud at the bench."""

from textwrap import wrap

from dryfit.app.cli.figures import AS_TYPED, Figures, Units, figures, in_hundred
from dryfit.app.cli.words import CARE, HOW, SMALL_PRINT
from dryfit.app.usecases.answers import CheckAnswer, LackingAnswer, ReasonAnswer, WantedAnswer
from dryfit.app.usecases.choose import ChooseAnswer, RouteAnswer, SettingAnswer

WIDTH = 78


def sheet(answer: ChooseAnswer, units: Units | None = None) -> str:
    """Write the whole sheet."""
    show = figures("mm" if answer.system == "mm" else "inch", units)
    blocks = [_title(answer), *_lacking(answer.lacking, show)]
    blocks += [_setting(one, show) for one in answer.settings]
    blocks += _sure(answer)
    blocks += [_check(check, show) for check in answer.checks]
    blocks += [_routes(one, show) for one in answer.settings]
    blocks += _worth(answer)
    blocks.append("\n".join(wrap(SMALL_PRINT, WIDTH)))
    return "\n\n".join(block for block in blocks if block) + "\n"


def readings(answer: ChooseAnswer, units: Units | None = None) -> str:
    """Write what every check should read, and nothing else."""
    show = figures("mm" if answer.system == "mm" else "inch", units)
    blocks = [_title(answer), *_lacking(answer.lacking, show)]
    fitted = [_fitted(one, show) for one in answer.settings]
    blocks += ["\n".join(line for line in fitted if line)]
    blocks += [_check(check, show) for check in answer.checks]
    blocks.append("\n".join(wrap(SMALL_PRINT, WIDTH)))
    return "\n\n".join(block for block in blocks if block) + "\n"


def _title(answer: ChooseAnswer) -> str:
    title = answer.title or "A rebuild without a title"
    return "\n".join([title, "=" * min(len(title), WIDTH), *wrap(answer.notes, WIDTH)])


def _head(text: str) -> list[str]:
    return [text, "-" * len(text)]


def _indented(text: str, by: int = 2, hang: int = 0) -> list[str]:
    """Wrap a sentence behind an indent."""
    lead = " " * by
    return wrap(text, WIDTH, initial_indent=lead, subsequent_indent=lead + " " * hang)


def _lacking(lacking: tuple[LackingAnswer, ...], show: Figures) -> list[str]:
    """Say what is to be measured first, and what it would change."""
    if not lacking:
        return []
    step = show.bare(0.1) if show.first == "mm" else show.bare(0.0254, 0.002)
    lines = _head("Not known yet: measure this first")
    for size in lacking:
        way = "more" if size.follows > 0 else "less"
        lines += _indented(f"{size.key}: each {step} longer gives {step} {way} float", hang=2)
    return ["\n".join(lines)]


def _setting(one: SettingAnswer, show: Figures) -> str:
    """Say what to fit, where, why, and which way it works."""
    lines = _head(f"Fit: {one.part}")
    if one.pack is not None:
        lines += _indented(f"{show.length(one.pack.thickness_mm)}{_pieces(one)}")
    elif one.routes:
        lines += _indented("cannot be said yet; see the routes below for the reading to take")
    else:
        lines += _indented("moves nothing that is wanted: say under needs: what float is wanted")
    if one.fitted_mm is not None:
        lines += _indented(f"in now: {show.length(one.fitted_mm)}")
    lines += _indented(f"lies between {one.between[0]} and {one.between[1]}")
    lines += _sum(one, show)
    lines += _indented(one.thicker, hang=2) if one.thicker else []
    return "\n".join(lines)


def _pieces(one: SettingAnswer) -> str:
    pack = one.pack
    if pack is None or len(pack.pieces) < 2:
        return ""
    return "  =  " + " + ".join(pack.pieces)


def _sum(one: SettingAnswer, show: Figures) -> list[str]:
    """Write the sum that gives the pack, one size a line."""
    if not one.terms:
        return []
    rows = [(show.bare(term.value_mm), term.label) for term in one.terms]
    total = sum(term.value_mm for term in one.terms)
    wide = max(len(figure) for figure, _ in rows)
    lines = [f"    {figure:>{wide}}  {label}" for figure, label in rows]
    return [*lines, f"    {show.bare(total):>{wide}}  by the sum of sizes"]


def _fitted(one: SettingAnswer, show: Figures) -> str:
    """Say which pack the readings are for."""
    if one.fitted_mm is not None:
        return f"With {show.length(one.fitted_mm)} of {one.part}, as fitted:"
    if one.pack is not None:
        return f"With {show.length(one.pack.thickness_mm)} of {one.part}:"
    return f"With no {one.part}, as none can be chosen yet:"


def _sure(answer: ChooseAnswer) -> list[str]:
    """Say the first-time chance."""
    if answer.chance is None:
        return []
    lines = _head("How sure")
    lines += _indented(
        f"{in_hundred(answer.chance)}: the chance that it closes up right first time, by the sizes"
    )
    if answer.harm is not None:
        when = "once it is warm" if answer.hot else "cold; say warmer than casing: for warm"
        lines += _indented(f"{in_hundred(answer.harm)}: the chance that it binds {when}")
    return ["\n".join(lines)]


def _check(check: CheckAnswer, show: Figures) -> str:
    """Say what a check should read and what more and less would mean."""
    state = "" if check.state == "built" else f", {check.state}"
    lines = _head(f"Check: {check.name}{state}")
    lines += _indented(f"{check.kind} of {check.what}, by {check.by}: ____________")
    if check.expected_mm is None or check.low_mm is None or check.high_mm is None:
        names = ", ".join(size.key for size in check.lacking)
        return "\n".join([*lines, *_indented(f"cannot be said until this is measured: {names}")])
    half = max((check.high_mm - check.low_mm) / 2, 0.004)
    lines += _indented(
        f"should read {show.bare(check.expected_mm, half)}; nine times in ten "
        f"{show.band(check.low_mm, check.high_mm, half)}"
    )
    if check.too_long_by_mm > 0.0005:
        lines += _indented(
            f"the parts are {show.length(check.too_long_by_mm, half)} too long for their room: "
            "it binds, or a cover stands off"
        )
    lines += _wanted(check, show)
    lines += _reading(check, show)
    lines += _indented(HOW[check.kind])
    lines += _reasons("if more", check.more, show) + _reasons("if less", check.less, show)
    lines += _indented(f"Care: {CARE[check.kind]}")
    return "\n".join(lines)


def _wanted(check: CheckAnswer, show: Figures) -> list[str]:
    """Say what is wanted, who says so, and how likely it is met."""
    wanted = check.wanted
    if wanted is None:
        return []
    chance = "" if check.within is None else f"; {in_hundred(check.within)} to be within"
    return _indented(f"wanted {limits(wanted, show)} ({wanted.source}){chance}")


def limits(wanted: WantedAnswer, show: Figures) -> str:
    """Show a range with one side or two."""
    low, high = wanted.low_mm, wanted.high_mm
    if low is not None and high is not None:
        return show.band(low, high, min(AS_TYPED, (high - low) / 2))
    if low is not None:
        return f"at least {show.length(low)}"
    return f"at most {show.length(high or 0.0)}"


def _reading(check: CheckAnswer, show: Figures) -> list[str]:
    """Say what is to be made of a reading that was taken."""
    read = check.read
    if read is None:
        return []
    size = show.length(abs(read.off_mm))
    off = f" by {size}" if "explain" in read.verdict else ""
    lines = _indented(f"READ {show.length(read.value_mm)}: {read.verdict}{off}", hang=2)
    return lines + (_indented(read.wanted, by=4) if read.wanted else [])


def _reasons(head: str, reasons: tuple[ReasonAnswer, ...], show: Figures) -> list[str]:
    """List what would make it read more or less."""
    words = []
    for reason in reasons:
        change = reason.change_mm
        amount = "" if change is None else f" ({show.bare(abs(change))})"
        words.append(reason.words + amount)
    return _indented(f"{head}: {'; '.join(words)}", hang=2) if words else []


def _routes(one: SettingAnswer, show: Figures) -> str:
    """List the routes to the pack with the chance of each."""
    if not one.routes:
        return ""
    lines = _head(f"Routes to {one.part}")
    for route in one.routes:
        mark = "  <- take this one" if route.name == one.route else ""
        if route.chance is None:
            lines += _indented(f"{route.name}: cannot be gone; {route.why_not}", hang=2)
            continue
        lines += _indented(f"{route.name}: {in_hundred(route.chance)}{mark}")
        lines += _how(one, route, show)
    return "\n".join(lines)


def _how(one: SettingAnswer, route: RouteAnswer, show: Figures) -> list[str]:
    """Say how a route from a reading is gone, with its sum for a pencil."""
    if not route.check:
        return []
    sign = "+" if route.sign > 0 else "-"
    offset = f"{'+' if route.offset_mm >= 0 else '-'} {show.bare(abs(route.offset_mm))}"
    if route.name == "difference":
        start = f"what was in, {show.bare(route.trial_mm)}"
        text = f"pack = {start} {offset} {sign} the float read before the strip"
    else:
        left = f"leave out {' and '.join(route.left_out)}; " if route.left_out else ""
        trial = one.part not in route.left_out
        fit = f"fit {show.bare(route.trial_mm)} of {one.part}; " if trial and route.trial_mm else ""
        where = f"read the gap at {route.at} by {route.by}"
        rule = f"what you fitted {offset} {sign} gap" if fit else f"gap {offset}"
        text = f"{left}{fit}{where}; pack = {rule}"
    lines = _indented(text, by=4, hang=2)
    if route.reading_mm:
        low, _, high = route.reading_mm
        lines += _indented(f"it should read {show.band(low, high)}", by=4)
    if route.pack is not None:
        made = show.length(route.pack.thickness_mm)
        lines += _indented(f"from your reading: {made}", by=4)
    return lines


def _worth(answer: ChooseAnswer) -> list[str]:
    """List the sizes worth measuring better."""
    if not answer.worth:
        return []
    lines = _head("Worth measuring better")
    for one in answer.worth:
        then = f"then {in_hundred(one.chance)}"
        lines += _indented(f"{one.key}, by {one.better} instead of {one.now}: {then}", hang=2)
    return ["\n".join(lines)]
