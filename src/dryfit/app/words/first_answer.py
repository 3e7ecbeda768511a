"""The first answer of a unit just begun: what to fit, what it reads then, how wide that is, why."""

from dataclasses import dataclass

from dryfit.app.usecases.answers import CheckAnswer, WorthAnswer
from dryfit.app.usecases.choose import ChooseAnswer, SettingAnswer
from dryfit.app.usecases.doubt import DoubtAnswer, ShareAnswer
from dryfit.app.usecases.opening import FindingAnswer
from dryfit.app.words.checks import aside, check_name, should, what_read
from dryfit.app.words.figures import AS_TYPED, Figures, in_hundred
from dryfit.app.words.fit import advice, why_words
from dryfit.app.words.needs import limits
from dryfit.app.words.nuts import FINE, set_nut
from dryfit.quantities.rounding import two_figures

MOST = 3
"""So many causes of doubt are told at first."""

AT_FIRST = 2
"""So many checks are told at first: the rest stands under Measure, Set and Build."""


@dataclass(frozen=True, slots=True)
class Fit:
    """A setting: what is done with it, the figure in both systems, and what there is to say."""

    what: str
    figure: str
    other: str
    told: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Cause:
    """One cause of doubt, so many hundredths of it, and what measuring it better would take off."""

    words: str
    share: str
    better: str


@dataclass(frozen=True, slots=True)
class Reads:
    """A check: what is read, what it should read, the band and its width, what is wanted, why."""

    name: str
    what: str
    typed: str
    band: str
    wide: str
    aside: tuple[str, ...]
    wanted: str
    causes: tuple[Cause, ...]


@dataclass(frozen=True, slots=True)
class Lacks:
    """A check that cannot be said yet, and the sizes that it lacks."""

    name: str
    sizes: tuple[str, ...]


@dataclass(frozen=True)
class FirstAnswer:
    """What can be said already, and what cannot yet.

    Attributes
    ----------
    stopped
        What has to be put right before anything can be said.
    notes
        What was taken as usual, and what is doubtful.
    fits, reads
        Settings and checks that can be told.
    lacks
        Checks that cannot.
    """

    stopped: tuple[FindingAnswer, ...]
    notes: tuple[FindingAnswer, ...]
    fits: tuple[Fit, ...] = ()
    reads: tuple[Reads, ...] = ()
    lacks: tuple[Lacks, ...] = ()


def first_answer(
    answer: ChooseAnswer, doubts: tuple[DoubtAnswer, ...], show: Figures
) -> FirstAnswer:
    """Put a first answer into words."""
    stopped = tuple(found for found in answer.findings if found.level == "stop")
    notes = tuple(found for found in answer.findings if found.level != "stop")
    if not answer.answered:
        return FirstAnswer(stopped, notes)
    causes = {doubt.check: doubt.shares for doubt in doubts}
    told = [check for check in answer.checks if should(check, show) is not None]
    return FirstAnswer(
        stopped,
        notes,
        tuple(_fit(one, answer, show) for one in answer.settings if _closed(one)),
        tuple(_reads(c, causes.get(c.name, ()), answer.worth, show) for c in told[:AT_FIRST]),
        tuple(
            Lacks(check_name(check), tuple(size.key for size in check.lacking))
            for check in answer.checks
            if check.lacking
        ),
    )


def _closed(one: SettingAnswer) -> bool:
    return one.pack is not None or one.wished_mm is not None


def _fit(one: SettingAnswer, answer: ChooseAnswer, show: Figures) -> Fit:
    if one.nut is not None:
        figure, other = _figure(abs(one.nut.to_mm), show, FINE)
        lines = tuple(line.text for line in set_nut(one, one.nut, show)[1:])
        what = "true float" if one.nut.to_mm >= 0 else "nip"
        return Fit(f"Set {one.part}: {what} to end with", figure, other, lines)
    mm = one.pack.thickness_mm if one.pack else one.wished_mm or 0.0
    figure, other = _figure(mm, show, AS_TYPED)
    what = "Fit" if one.pack else "The sum asks for"
    told = (advice(one, answer, show), *(line.text for line in why_words(one, show)))
    return Fit(f"{what}: {one.part}", figure, other, tuple(told))


def _figure(mm: float, show: Figures, half: float) -> tuple[str, str]:
    """Show a length in one system and in the other."""
    figure, _, other = show.length(mm, half).partition(" (")
    return figure, other.removesuffix(")")


def _reads(
    check: CheckAnswer,
    shares: tuple[ShareAnswer, ...],
    worth: tuple[WorthAnswer, ...],
    show: Figures,
) -> Reads:
    told = should(check, show)
    nothing = _shows_nothing(check)
    wanted = ""
    if check.wanted:
        chance = "" if check.within is None else f"; {in_hundred(check.within)} to be within"
        wanted = f"{limits(check.wanted, show)} ({check.wanted.source}){chance}"
    return Reads(
        check_name(check),
        what_read(check),
        NOTHING if nothing else f"{told.verb} {told.typed}" if told else "",
        told.band if told and not nothing else "",
        _wide(check, show),
        tuple(line.text for line in aside(check, show)),
        wanted,
        () if nothing else tuple(_cause(one, worth) for one in shares[:MOST]),
    )


NOTHING = "show as good as nothing, 0 N: no row is pressed so hard that a balance tells it"


def _shows_nothing(check: CheckAnswer) -> bool:
    """Tell a balance that is to show nothing, which leaves nothing to doubt."""
    force = check.force
    return force is not None and two_figures(force.high_n) == two_figures(0.0)


def _wide(check: CheckAnswer, show: Figures) -> str:
    """Say how wide a band is; nothing of one that is no length."""
    if check.low_mm is None or check.high_mm is None or check.force:
        return ""
    wide = check.high_mm - check.low_mm
    return show.length(wide, wide / 10)


def _cause(one: ShareAnswer, worth: tuple[WorthAnswer, ...]) -> Cause:
    better = next((each for each in worth if each.key == one.key), None)
    told = (
        f"read by {better.better} instead of {better.now}, {in_hundred(better.share)} of it goes"
        if better
        else ""
    )
    return Cause(one.words, ALL if one.share > NEARLY else in_hundred(one.share), told)


ALL, NEARLY = "nearly all", 0.995
"""How a share is called that leaves nothing to speak of, and from which on [-]."""
