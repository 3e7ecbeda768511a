"""`order`: in which order a unit goes together, or comes apart; in words, as data or on paper."""

import sys
from datetime import date
from pathlib import Path
from typing import Any

import click

from dryfit.app.cli.book import may_replace, name_of, paper, tell_of
from dryfit.app.cli.files import WRONG, print_findings, print_json, text_of


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--strip", is_flag=True, help="How it comes apart instead, and what to note.")
@click.option("--pin", "pins", multiple=True, metavar="WISH", help='A wish: "cover before oil".')
@click.option("--json", "as_json", is_flag=True, help="Print the answer as JSON.")
@click.option("-o", "out", type=click.Path(path_type=Path), help="Sheets with pictures: ends .pdf.")
@paper
@click.option("--replace", is_flag=True, help="Write over any file that is there.")
def order(
    file: Path,
    strip: bool,
    pins: tuple[str, ...],
    as_json: bool,
    out: Path | None,
    paper: Any,
    replace: bool,
) -> None:
    """Say in which order FILE, or a demo, goes together, and what each step hides.

    From the shapes of the parts: what can be put on when, where each check is read, and how often
    a build stops there. A picture of one step: dryfit draw FILE --step 5.
    """
    if out is None:
        _say(file, strip, pins, as_json=as_json)
        return
    if as_json:
        raise click.UsageError("--json prints, -o writes sheets: leave one of them out")
    _write(file, strip, pins, out, paper=paper, replace=replace)


def _say(file: Path, strip: bool, pins: tuple[str, ...], *, as_json: bool) -> None:
    """Print the order, or the strip."""
    from dryfit.app.cli.page import blocks
    from dryfit.app.usecases.order import OrderRequest
    from dryfit.app.usecases.order import order as ask
    from dryfit.app.words.order import order_words, strip_words

    answer = ask(OrderRequest(text_of(file), pins))
    if as_json:
        print_json("order", answer)
    else:
        print_findings(answer.findings)
        if answer.answered:
            click.echo(blocks((strip_words if strip else order_words)(answer)), nl=False)
    if not answer.answered:
        sys.exit(WRONG)


def _write(
    file: Path, strip: bool, pins: tuple[str, ...], out: Path, *, paper: Any, replace: bool
) -> None:
    """Write the sheets of the order, or of the strip."""
    from dryfit.app.usecases.sheets import STRIP_DOWN, SheetRequest, sheet

    data = text_of(file)
    replace = may_replace(out, replace)
    kind = STRIP_DOWN if strip else "order"
    request = SheetRequest(kind, data, name_of(file), date.today(), paper, pins=pins)
    tell_of(sheet(request), out, replace=replace)
