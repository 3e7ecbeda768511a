"""Readings that are far out: beyond what their check should read by many times the band's width.

No doubt in a size makes such a reading. It is kept as it was typed, and told by itself, for in a
mean it would hide the others.
"""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from dryfit.app.usecases.answers import CheckAnswer
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Finding, Place, Quantity, Size, System
from dryfit.quantities.rounding import exact, two_figures
from dryfit.quantities.show import decimals_for, show_length

WIDTHS = 5
"""A reading so many widths of its band beyond it is far out: an estimate."""

LEAST_WIDE = Fraction(1, 20)
"""A band of a length counts as at least so wide [mm], for one at nothing is very narrow."""

WAY_OUT = (
    "if it was typed wrong, strike it out or type it again; if it reads so again, look for what "
    "is left out or not home"
)


def far_out(check: CheckAnswer, taken: Sequence[Size | Quantity]) -> tuple[int, ...]:
    """Count out, from 0, which readings of a check are far out; none where it has no band."""
    force = check.force
    low, high = (force.low_n, force.high_n) if force else (check.low_mm, check.high_mm)
    if low is None or high is None:
        return ()
    least, most = exact(low), exact(high)
    beyond = WIDTHS * (most - least if force else max(most - least, LEAST_WIDE))
    return tuple(
        n for n, one in enumerate(taken) if not least - beyond <= exact(one.value) <= most + beyond
    )


def told_far_out(
    check: CheckAnswer, taken: Sequence[Size | Quantity], system: System
) -> tuple[Finding, ...]:
    """Tell each reading of a check that is far out."""
    place: Place = ("readings", check.name)
    return tuple(
        Finding(
            "reading.far out",
            (*place, n) if len(taken) > 1 else place,
            f"'{check.name}' was read as {taken[n].text}, and {_band(check, system)} is expected: "
            f"far out{'; it counts in the mean of all' if len(taken) > 1 else ''}",
            WAY_OUT,
            "note",
        )
        for n in far_out(check, taken)
    )


def all_far_out(rebuild: Rebuild, checks: Iterable[CheckAnswer]) -> Iterator[Finding]:
    """Tell all readings in a text that are far out."""
    for check in checks:
        taken: list[Size | Quantity] = [*rebuild.readings.get(check.name, ())]
        taken += rebuild.forces.get(check.name, ())
        yield from told_far_out(check, taken, rebuild.system)


def _band(check: CheckAnswer, system: System) -> str:
    """Give what is expected, nine times in ten."""
    if check.force:
        return f"{two_figures(check.force.low_n)} to {two_figures(check.force.high_n)} N"
    low, high = check.low_mm or 0.0, check.high_mm or 0.0
    decimals = decimals_for(max((high - low) / 2, 0.004), system)
    shown = [show_length(end, system, decimals=decimals) for end in (low, high)]
    return f"{shown[0].split(' ')[0]} to {shown[1]}"
