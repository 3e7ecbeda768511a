"""The sheet: an answer in words, 78 columns, plain characters, to be read aloud at the bench."""

from dryfit.app.cli.page import blocks
from dryfit.app.usecases.choose import ChooseAnswer
from dryfit.app.words.around import lacking_sizes, small_print, taken, titled
from dryfit.app.words.chances import first_look, nothing_raises, raises, spares, sure
from dryfit.app.words.checks import check_words
from dryfit.app.words.figures import Figures, Units, figures
from dryfit.app.words.fit import fit, in_hand, ways
from dryfit.app.words.needs import needs
from dryfit.app.words.said import Said, indented
from dryfit.app.words.written import written_walk


def sheet(answer: ChooseAnswer, units: Units | None = None) -> str:
    """Write the whole sheet."""
    show = figures("mm" if answer.system == "mm" else "inch", units)
    said = [titled(answer), lacking_sizes(answer.lacking, show)]
    said += [fit(one, answer, show) for one in answer.settings]
    said += [written_walk(one, show) for one in answer.walks]
    said += [sure(answer), *_checks(answer, show)]
    said += [ways(one, show) for one in answer.settings]
    return blocks([*said, raises(answer), spares(answer), taken(answer), small_print()])


def what_raises(answer: ChooseAnswer) -> str:
    """Write what raises the chance most, and nothing else."""
    show = figures("mm" if answer.system == "mm" else "inch", None)
    said = [titled(answer), lacking_sizes(answer.lacking, show), sure(answer), raises(answer)]
    if not answer.acts:
        said.append(indented(nothing_raises(answer), by=0))
    return blocks([*said, spares(answer), taken(answer), small_print()])


def readings(answer: ChooseAnswer, units: Units | None = None) -> str:
    """Write what every check should read, and nothing else."""
    show = figures("mm" if answer.system == "mm" else "inch", units)
    said = [titled(answer), first_look(answer), lacking_sizes(answer.lacking, show)]
    return blocks([*said, *_checks(answer, show), taken(answer), small_print()])


def _checks(answer: ChooseAnswer, show: Figures) -> list[list[Said]]:
    """Say what every check should read, how to read it told once."""
    now = "as tried" if answer.first_look else "as it is now"
    fitted = [line for one in answer.settings for line in indented(in_hand(one, show, now), by=0)]
    first = {check.kind: check.name for check in reversed(answer.checks)}
    told = [check_words(c, show, how=first[c.kind] == c.name) for c in answer.checks]
    return [fitted, needs(answer, show), *told]
