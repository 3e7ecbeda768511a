"""The sheet of a walk to nothing, and what keeps it from being answered."""

from dryfit.app.cli.page import blocks, indented
from dryfit.app.usecases.walk_answers import SlipAnswer, WalkAnswer
from dryfit.app.words.figures import Units, figures
from dryfit.app.words.walk import walked


def walk_sheet(answer: WalkAnswer, units: Units | None = None) -> str:
    """Write the sheet."""
    return blocks(walked(answer, figures("mm" if answer.system == "mm" else "inch", units)))


def walk_slips(slips: tuple[SlipAnswer, ...]) -> str:
    """Write what keeps a walk from being answered, all at once."""
    told = []
    for slip in slips:
        lines = indented(f"{slip.where}: {slip.message}", by=0, hang=2)
        lines += [f"    {line[:70]}" for line in slip.excerpt.splitlines()]
        lines += indented(slip.way_out, by=4)
        told.append("\n".join(lines))
    return "\n\n".join(told) + "\n"
