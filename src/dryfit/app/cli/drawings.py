"""`draw` and `plot`: what is drawn of a document, written as SVG, PDF or DXF."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from dryfit.app.cli.files import WRONG, beside, check_target, print_findings, text_of, write
from dryfit.draw.written import WRITERS, written

if TYPE_CHECKING:
    from dryfit.app.usecases.plots import PlotAnswer
    from dryfit.app.usecases.walk_answers import WalkAnswer

KINDS = ("setting", "pair", "doubt", "walk")
"""Kinds of plot; a test holds them against those that can be drawn."""

MOST_GAPS = 1000.0
"""Gaps drawn so many times as wide would be wider than the parts."""

MOST_STEPS = 10_000
"""No order has so many steps: a text has 500 parts at most."""

PAPER = click.Choice(["a4", "letter"], case_sensitive=False)
"""Sheets that a PDF may be made for, in capitals too."""

file = click.argument("file", type=click.Path(path_type=Path))
out = click.option(
    "-o", "out", type=click.Path(path_type=Path), help="Where to: ends in .svg, .pdf or .dxf."
)
replaces = click.option("--replace", is_flag=True, help="Write over a file that is there.")


def _times(_context: click.Context, _option: click.Parameter, typed: str) -> float:
    """Read how many times as wide gaps are drawn."""
    try:
        times = float(typed)
    except ValueError:
        times = 0.0
    if not 1.0 <= times <= MOST_GAPS:
        raise click.UsageError(f"--gaps {typed}: type 1 for true gaps, up to {MOST_GAPS:g}")
    return times


def _number(_context: click.Context, _option: click.Parameter, typed: str | None) -> int | None:
    """Read which step is wanted."""
    if typed is None:
        return None
    if not (typed.isascii() and typed.isdigit() and 0 < int(typed) < MOST_STEPS):
        raise click.UsageError(f"--step {typed}: type its number in `dryfit order`, 1 or more")
    return int(typed)


def _alone(line: str | None, gaps: float) -> None:
    """Refuse what goes with the whole drawing only."""
    if line is not None or gaps > 1:
        raise click.UsageError(
            "--step draws its own line to scale: leave out --line and --gaps, or --step"
        )


def _draw_step(
    data: bytes, step: int, pins: tuple[str, ...], where: Path, *, replace: bool
) -> None:
    """Draw one step of the order."""
    from dryfit.app.usecases.steps import StepDrawRequest, draw_step

    answer = draw_step(StepDrawRequest(data, step, pins))
    print_findings(answer.findings)
    if answer.drawing is None:
        sys.exit(WRONG)
    write(where, written(answer.drawing, where.suffix), replace=replace)
    click.echo(f"{where} is written: {answer.drawing.title}.")


@click.command()
@file
@out
@click.option("--line", metavar="NAME", help="Draw this line alone.")
@click.option(
    "--gaps",
    default="1",
    metavar="TIMES",
    callback=_times,
    help="Draw gaps so many times as wide: 10.",
)
@click.option("--step", metavar="N", callback=_number, help="One step of `dryfit order`, as built.")
@click.option("--pin", "pins", multiple=True, metavar="WISH", help="With --step: as of `order`.")
@replaces
def draw(
    file: Path,
    out: Path | None,
    line: str | None,
    gaps: float,
    step: int | None,
    pins: tuple[str, ...],
    replace: bool,
) -> None:
    """Draw the half-section of FILE, or of a demo; with --step that step of its order.

    Without -o it is written beside FILE, with its name and .svg.
    """
    data = text_of(file)
    where = out or beside(file, ".svg" if step is None else f"-step-{step}.svg")
    check_place(where)
    if step is not None:
        _alone(line, gaps)
        _draw_step(data, step, pins, where, replace=replace)
        return
    if pins:
        raise click.UsageError("--pin is a wish for an order: it goes with --step")
    from dryfit.app.usecases.drawing import DrawRequest
    from dryfit.app.usecases.drawing import draw as ask

    _check_line(data, line)
    answer = ask(DrawRequest(data, line=line, gaps=gaps))
    print_findings(answer.findings)
    if answer.drawing is None:
        sys.exit(WRONG)
    write(where, written(answer.drawing, where.suffix), replace=replace)
    click.echo(f"{where} is written: {answer.drawing.title}.")


@click.command()
@file
@click.argument("kind", required=False, type=click.Choice(KINDS, case_sensitive=False))
@out
@click.option("--paper", type=PAPER, help="Sheets of a PDF, to print.")
@replaces
def plot(file: Path, kind: str | None, out: Path | None, paper: str | None, replace: bool) -> None:
    """Plot what FILE, or a demo, is asked: KIND is one of four, all without.

    setting: readings against a pack or nut. pair: rows against each other. doubt: what makes up
    each check's uncertainty. walk: the walks written in FILE. A PDF holds all, a page or place
    each; of SVG and DXF each has a file with a number. Without -o: FILE's name and -plots.pdf.
    """
    data = text_of(file)
    where = out or beside(file, "-plots.pdf")
    check_place(where)
    if paper and where.suffix.lower() != ".pdf":
        raise click.UsageError(f"--paper is for a PDF; {where.name} has no sheets: leave it out")
    from dryfit.app.usecases.plots import PlotRequest
    from dryfit.app.usecases.plots import plot as ask

    answer = ask(PlotRequest(data, kind))
    print_findings(answer.findings)
    if not answer.answered:
        sys.exit(WRONG)
    for why in answer.without:
        click.echo(f"no plot of {why}")
    if answer.drawings:
        _write_all(answer, where, paper, replace=replace)
    elif kind:
        sys.exit(WRONG)


def _write_all(answer: "PlotAnswer", where: Path, paper: str | None, *, replace: bool) -> None:
    """Write plots into one PDF, or into a numbered file each."""
    if where.suffix.lower() == ".pdf":
        from dryfit.draw.pdf import pages

        write(
            where,
            pages(answer.drawings, answer.title or answer.drawings[0].title, paper=paper),
            replace=replace,
        )
        click.echo(f"{where} is written:")
        for drawing in answer.drawings:
            click.echo(f"  {drawing.title}")
        return
    for n, drawing in enumerate(answer.drawings, 1):
        one = where if len(answer.drawings) == 1 else where.with_stem(f"{where.stem}-{n}")
        write(one, written(drawing, one.suffix), replace=replace)
        click.echo(f"{one} is written: {drawing.title}")


def write_walk(answer: "WalkAnswer", where: Path, *, replace: bool, quiet: bool) -> None:
    """Write the plot of a walk that was answered."""
    from dryfit.app.usecases.plot_walks import walk_drawn

    moved = "nut" if answer.by == "nut" else "pack"
    drawing = walk_drawn(answer, "Walk to nothing", moved)
    if drawing is not None:
        write(where, written(drawing, where.suffix), replace=replace)
        click.echo(f"{where} is written: {drawing.title}.", err=quiet)


def check_place(where: Path) -> None:
    """Refuse what cannot be written before anything is worked out."""
    check_target(where, WRITERS)


def _check_line(data: bytes, line: str | None) -> None:
    """Refuse a line that the document does not have."""
    if line is None:
        return
    from dryfit.document.read import read_document
    from dryfit.quantities.finding import near

    known = [one.name for one in read_document(data).rebuild.lines.values()]
    if known and line not in known:
        raise click.UsageError(f"--line: there is no line '{line}': {near(line, known)}")
