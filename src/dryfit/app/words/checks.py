"""What a check should read, what more and less would mean, and what is made of a reading."""

from dataclasses import dataclass

from dryfit.app.usecases.answers import CheckAnswer, ReasonAnswer
from dryfit.app.words.figures import AS_TYPED, Figures, in_hundred
from dryfit.app.words.needs import limits
from dryfit.app.words.said import Said, head, indented
from dryfit.app.words.trade import CARE, HOW
from dryfit.quantities.rounding import two_figures, within


def check_words(check: CheckAnswer, show: Figures, *, how: bool) -> list[Said]:
    """Say what a check should read and what more and less would mean."""
    lines = head(f"Check: {check_name(check)}")
    lines += indented(f"{what_read(check)}: ____________")
    told = should(check, show)
    if told is None:
        return [*lines, *indented(unread(check))]
    lines += indented(f"should {told.verb} {told.typed}; nine times in ten {told.band}")
    lines += [*aside(check, show), *wanted_words(check, show), *reading_words(check, show)]
    lines += indented(HOW[check.kind]) if how else []
    for beyond, reasons in (("more", check.more), ("less", check.less)):
        words = reason_words(reasons, show, "more with --json")
        lines += indented(f"if {beyond}: {'; '.join(words)}", hang=2) if words else []
    lines += indented(f"Care: {CARE[check.kind]}") if how else []
    return lines


def check_name(check: CheckAnswer) -> str:
    """Name a check, with its state where that is another than as built."""
    state = "" if check.state in ("built", *check.name.split(", ")) else f", {check.state}"
    return check.name + state


def what_read(check: CheckAnswer) -> str:
    """Say what is read, and by what."""
    return f"{check.kind} of {check.what}, by {check.by}"


@dataclass(frozen=True, slots=True)
class Should:
    """What a check should `read` or `show`, and the band in which nine readings in ten lie."""

    verb: str
    typed: str
    band: str


def should(check: CheckAnswer, show: Figures) -> Should | None:
    """Say what it should read; nothing where that cannot be said."""
    if check.force:
        force = check.force
        low, high = two_figures(force.low_n), two_figures(force.high_n)
        typed = within(force.expected_n, force.low_n, force.high_n)
        return Should("show", f"{typed} N", f"{low} to {high} N")
    if check.cannot or check.expected_mm is None or check.low_mm is None or check.high_mm is None:
        return None
    half, band = _half(check), show.band(check.low_mm, check.high_mm, _half(check))
    return Should("read", show.bare(check.expected_mm, half), band)


def _half(check: CheckAnswer) -> float:
    """Half the band [mm], or what its instrument tells apart."""
    coarse = AS_TYPED if check.by == "feelers" else 0.004
    return max(((check.high_mm or 0.0) - (check.low_mm or 0.0)) / 2, coarse)


def unread(check: CheckAnswer) -> str:
    """Say why it cannot be said what it should read."""
    if check.cannot:
        return f"cannot be read: {check.cannot}; {check.way_out}"
    names = ", ".join(size.key for size in check.lacking)
    return f"cannot be said until this is measured: {names}"


def aside(check: CheckAnswer, show: Figures) -> list[Said]:
    """Say what lies behind a reading that is no float."""
    if check.nipped_by_mm > 0.0005:
        return indented(
            f"no float: the rows are pressed together by {show.length(check.nipped_by_mm, 0.002)}; "
            "the dial shows only what they yield under the push"
        )
    if check.too_long_by_mm > 0.0005:
        return indented(
            f"the parts are {show.length(check.too_long_by_mm, _half(check))} too long for their "
            "room: it binds, or a cover stands off"
        )
    return []


def wanted_words(check: CheckAnswer, show: Figures) -> list[Said]:
    """Say what is wanted, who says so, and how likely it is met."""
    wanted = check.wanted
    if wanted is None:
        return []
    chance = "" if check.within is None else f"; {in_hundred(check.within)} to be within"
    return indented(f"wanted {limits(wanted, show)} ({wanted.source}){chance}")


def reading_words(check: CheckAnswer, show: Figures) -> list[Said]:
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


def reason_words(
    reasons: tuple[ReasonAnswer, ...], show: Figures, rest: str, *, most: int = 6
) -> list[str]:
    """List what would make it read more or less; `rest` says where those beyond `most` are."""
    words = []
    false = [reason for reason in reasons if reason.words.startswith("false reading")]
    others = [reason for reason in reasons if reason not in false]
    for reason in (*others[:most], *false):
        change = reason.change_mm
        amount = "" if change is None else f" ({show.bare(abs(change))})"
        words.append(reason.words + amount)
    if len(others) > most:
        words.append(f"{len(others) - most} {rest}")
    return words
