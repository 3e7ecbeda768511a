"""The commands. Nothing heavy is imported before a command needs it."""

import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dryfit import __version__
from dryfit.app.cli.book import book, sheet
from dryfit.app.cli.drawings import check_place, draw, out, plot, replaces, write_walk
from dryfit.app.cli.files import WRONG, give_up, no_folder, print_findings, print_json, read
from dryfit.app.cli.open import open_
from dryfit.app.cli.order import order

if TYPE_CHECKING:
    from dryfit.app.usecases.choose import ChooseAnswer
    from dryfit.app.usecases.review import ReviewAnswer
    from dryfit.app.usecases.walk_answers import WalkAnswer

MINUS = "\N{MINUS SIGN}"

units = click.option(
    "--units", type=click.Choice(["mm", "inch", "both"]), help="Show lengths in these alone."
)
as_json = click.option("--json", "as_json", is_flag=True, help="Print the answer as JSON.")
file = click.argument("file", type=click.Path(path_type=Path))


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 78})
@click.version_option(__version__, prog_name="dryfit")
def cli() -> None:
    """The dry build in numbers.

    From sizes measured on the bench: what every check should read and which shim to fit.
    """


@cli.command()
@click.argument("name", required=False)
@as_json
@units
def demo(name: str | None, as_json: bool, units: Any) -> None:
    """Show the sheet of a worked example; without NAME the first one."""
    from dryfit.app.usecases import demos

    known = demos.names()
    chosen = name or known[0]
    if chosen not in known:
        raise click.UsageError(f"there is no demo '{chosen}'; there are: {', '.join(known)}")
    _answer_choose(demos.text(chosen), as_json, lambda a: _sheet(a, units))
    if not as_json and name is None:
        others = ", ".join(known[1:])
        click.echo(f"Other demos: {others}. Start your own: dryfit new shimmed-shaft my-box.yaml")


@cli.command()
@click.argument("kind")
@file
def new(kind: str, file: Path) -> None:
    """Write a text to start from: KIND is shimmed-shaft, spindle-pair, ... or blank.

    There are: bevel-drive, blank, shimmed-shaft, spindle-pair, taper-headstock, worm-table.
    """
    from dryfit.app.usecases import begin

    if kind not in begin.kinds():
        raise click.UsageError(f"no start for '{kind}'; there are: {', '.join(begin.kinds())}")
    try:
        with file.open("xb") as target:
            target.write(begin.start(kind))
    except FileExistsError:
        give_up(f"{file} is there already and is left as it is; choose another name")
    except FileNotFoundError:
        give_up(f"{file} cannot be written: {no_folder(file)}")
    except OSError as error:
        give_up(f"{file} cannot be written: {error.strerror or error}")
    click.echo(f"{file} is written. Put in your sizes, then: dryfit review {file}")


@cli.command()
@file
@as_json
def review(file: Path, as_json: bool) -> None:
    """Say what is wrong in FILE, and what is not known yet."""
    from dryfit.app.usecases.review import ReviewRequest
    from dryfit.app.usecases.review import review as ask

    answer = ask(ReviewRequest(read(file)))
    if as_json:
        print_json("review", answer)
    else:
        print_findings(answer.findings)
        ready = _ready(answer)
        click.echo(f"{answer.parts} parts, {answer.sizes} sizes: {ready}.")
        for size in answer.lacking:
            click.echo(f"  still to measure: {size.key}")
    sys.exit(0 if answer.ready else WRONG)


def _ready(answer: "ReviewAnswer") -> str:
    """Say whether a text is sound, or what is wrong with it as a whole."""
    if not answer.ready:
        return "mend what is marked stop"
    unread = any(found.message.endswith("cannot be read") for found in answer.findings)
    return "sound but for what cannot be read" if unread else "sound"


@cli.command()
@file
@as_json
def worth(file: Path, as_json: bool) -> None:
    """Say what raises the chance of FILE most for the time it takes."""

    def text(answer: "ChooseAnswer") -> str:
        from dryfit.app.cli.sheet import what_raises

        return what_raises(answer)

    _answer_choose(read(file), as_json, text, question="worth")


@cli.command()
@file
@click.option("--with", "packs", multiple=True, metavar="PACK", help='Try one: "cover shim: 0.40".')
@as_json
@units
def expect(file: Path, packs: tuple[str, ...], as_json: bool, units: Any) -> None:
    """Say what every check of FILE should read; with PACK, what it would with that."""

    def text(answer: "ChooseAnswer") -> str:
        from dryfit.app.cli.sheet import readings

        return readings(answer, units)

    if packs:
        from dryfit.app.usecases.try_on import try_on

        tried = try_on(read(file), packs)
        if tried.answer is None:
            raise click.UsageError("\n".join(tried.slips))
        _tell(tried.answer, as_json, text, question="expect")
    else:
        _answer_choose(read(file), as_json, text, question="expect")


@cli.command(name="set")
@file
@as_json
@units
def set_(file: Path, as_json: bool, units: Any) -> None:
    """Say which shim FILE wants, by which route, and how sure that is."""
    _answer_choose(read(file), as_json, lambda a: _sheet(a, units))


class _WithReadings(click.Command):
    """A command whose readings may begin with a minus: `-10 deg: 0.12` is no option."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Write such a minus as the sign that begins no option."""
        told = [MINUS + a[1:] if a[1:2].isdigit() and ":" in a and a[0] == "-" else a for a in args]
        return super().parse_args(ctx, told)


@cli.command(cls=_WithReadings)
@click.argument("readings", nargs=-1)
@click.option("--pitch", metavar="PITCH", help="Of the nut: 1.5, or 16 per inch.")
@click.option("--pack", is_flag=True, help="Packs were changed; marks are their thickness.")
@click.option("--want", metavar="FLOAT", help="Stop at this float: 0.010, or 5 to 10 um.")
@click.option("--past", metavar="NIP", help="Go past nothing by this nip.")
@click.option("--across", metavar="SIZE", help="Diameter on which the nut's marks are.")
@click.option("--push", metavar="FORCE", help="Push at each reading: 50 N, 10 lb.")
@click.option("--sheet", "form", is_flag=True, help="Print an empty form for the bench.")
@out
@replaces
@as_json
@units
def walk(
    readings: tuple[str, ...],
    form: bool,
    out: Path | None,
    replace: bool,
    as_json: bool,
    units: Any,
    **typed: Any,
) -> None:
    """Walk to nothing: from floats at a few marks, where float ends.

    READINGS are mark, colon, float, each in quotes: "0 deg: 0.082" "10 deg: 0.041". Marks in
    degrees, turns, hours or "2 flats of 6", counted as the nut is tightened; with --pack the
    thickness: "0.50: 0.12". A bare number is mm, or inch with --units inch.
    """
    if form:
        from dryfit.app.cli.walk_form import walk_form

        click.echo(walk_form())
        return
    if typed.pop("pack") == (typed["pitch"] is not None):
        raise click.UsageError("say what moved: --pitch of the nut, or --pack; one of the two")
    if out is not None:
        check_place(out)
    answer = _answer_walk(readings, as_json, units, typed)
    if out is not None:
        write_walk(answer, out, replace=replace, quiet=as_json)


def _answer_walk(
    readings: tuple[str, ...], as_json: bool, units: Any, typed: "dict[str, str | None]"
) -> "WalkAnswer":
    """Answer a walk and print it; leave with the exit code it deserves if it has no answer."""
    from dryfit.app.cli.walk import walk_sheet, walk_slips
    from dryfit.app.usecases.walk import WalkRequest, walked

    readings = tuple(text.replace(MINUS, "-") for text in readings)
    answer = walked(WalkRequest(readings, "inch" if units == "inch" else "mm", **typed))
    if as_json:
        print_json("walk", answer)
    elif answer.answered:
        click.echo(walk_sheet(answer, units), nl=False)
    else:
        click.echo(walk_slips(answer.findings), nl=False)
    if not answer.answered:
        sys.exit(WRONG)
    return answer


cli.add_command(draw)
cli.add_command(plot)
cli.add_command(book)
cli.add_command(sheet)
cli.add_command(open_)
cli.add_command(order)


def _sheet(answer: "ChooseAnswer", units: Any) -> str:
    from dryfit.app.cli.sheet import sheet

    return sheet(answer, units)


def _answer_choose(
    data: bytes, as_json: bool, text: "Callable[[ChooseAnswer], str]", question: str = "set"
) -> None:
    """Answer, print, and leave with the exit code that the document deserves."""
    from dryfit.app.usecases.choose import ChooseRequest, choose

    _tell(choose(ChooseRequest(data)), as_json, text, question=question)


def _tell(
    answer: "ChooseAnswer", as_json: bool, text: "Callable[[ChooseAnswer], str]", *, question: str
) -> None:
    """Print an answer, and leave with the exit code that the document deserves."""
    if as_json:
        print_json(question, answer)
    else:
        print_findings(answer.findings)
        if answer.answered:
            click.echo(text(answer))
    if not answer.answered:
        sys.exit(WRONG)


def main() -> None:
    """Run the command line; letters that a console lacks are spelt out, never an error."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")
    cli()
