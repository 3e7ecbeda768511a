"""An answer put into the words and small pictures of the page Set: chances and settings.

All sentences are those of `app.words`, which the printed sheets have too. This is done where the
answer is worked out, not by the server.
"""

from collections.abc import Iterable

from dryfit.app.pages import set_view as view
from dryfit.app.pages.set_checks import shown
from dryfit.app.pages.strips import rise, stack
from dryfit.app.usecases.answers import PackAnswer
from dryfit.app.usecases.choose import ChooseAnswer, RouteAnswer, SettingAnswer
from dryfit.app.words.around import lacking_sizes, taken
from dryfit.app.words.chances import (
    acts,
    by_sizes,
    first_look,
    harm_words,
    nothing_raises,
    unexplained,
    usual_lines,
    usual_words,
    without_acts,
)
from dryfit.app.words.figures import Figures, figures, in_hundred
from dryfit.app.words.fit import advice, in_hand, sum_rows, why_words
from dryfit.app.words.needs import need_words, needs_left
from dryfit.app.words.nuts import TOLD, nut_route_words, set_nut
from dryfit.app.words.said import Said, indented
from dryfit.app.words.ways import route_words
from dryfit.app.words.written import pieces
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import System, read_size
from dryfit.quantities.size import Size


def told(answer: ChooseAnswer, rebuild: Rebuild, first: int = 0) -> view.SetView:
    """Tell an answer; `first` of how many draws it is, if it is a first look."""
    stops = tuple(found for found in answer.findings if found.level == "stop")
    notes = tuple(found for found in answer.findings if found.level != "stop")
    if not answer.answered:
        return view.SetView(False, 0, stops, notes)
    show = figures(rebuild.system, None)
    now = "as tried" if answer.first_look else "as it is now"
    return view.SetView(
        True,
        first,
        stops,
        notes,
        _chances(answer, rebuild, show),
        tuple(_fit(one, answer, rebuild, show) for one in answer.settings),
        tuple(shown(check, rebuild, show) for check in answer.checks),
        tuple(_lines(need_words(one, show)) for one in needs_left(answer)),
        tuple(in_hand(one, show, now) for one in answer.settings),
    )


def hundred(share: float) -> view.Hundred:
    """Take a chance in words apart.

    >>> hundred(0.56), hundred(0.999)
    (Hundred(before='', figure='56'), Hundred(before='over', figure='99'))
    """
    *before, figure, _in, _hundred = in_hundred(share).split()
    return view.Hundred(" ".join(before), figure)


def _lines(said: Iterable[Said]) -> tuple[str, ...]:
    """Give sentences without their head, each begun with a capital."""
    texts = (one.text.strip() for one in said if one.sort in ("text", "row"))
    return tuple(text[:1].upper() + text[1:] for text in texts if text)


def _chances(answer: ChooseAnswer, rebuild: Rebuild, show: Figures) -> view.Chances:
    sure = [
        view.Sure(
            one.words.replace("above", "below"),
            hundred(one.chance),
            (*_lines(harm_words(answer, one.harm)), *_lines(indented(one.route))),
        )
        for one in by_sizes(answer)
    ]
    if answer.first_look and answer.chance_as_it_is is not None:
        lines = _lines(first_look(answer))[1:]
        sure = [view.Sure("All as wanted, by the sizes", hundred(answer.chance_as_it_is), lines)]
    usual = _usual(answer)
    if not sure and usual is not None:
        sure, usual = [usual], None
    return view.Chances(
        "A reading below does not fit your sizes. Find out why first: until then these chances "
        "do not hold."
        if unexplained(answer)
        else "",
        tuple(sure),
        (*_wide(answer, show), *_share(answer)),
        usual,
        without_acts(answer),
        _raises(answer),
        "" if answer.acts or answer.first_look else nothing_raises(answer),
        _missing(answer, rebuild, show),
        "".join(_lines(taken(answer))),
    )


def _wide(answer: ChooseAnswer, show: Figures) -> tuple[str, ...]:
    """Say how wide the band is of what is least likely met, and what is wanted of it."""
    known = [one for one in answer.needs if one.chance is not None and not one.lacking]
    if not known:
        return ()
    least = min(known, key=lambda one: one.chance or 0.0)
    return _lines(need_words(least, show))[:2]


def _share(answer: ChooseAnswer) -> tuple[str, ...]:
    """Name the size that makes most of the doubt."""
    if not answer.worth:
        return ()
    most = max(answer.worth, key=lambda one: one.share)
    return (
        f"The doubt lies most in {most.key}, measured by {most.now}: read by {most.better} "
        f"instead, {in_hundred(most.share)} of it would go.",
    )


def _usual(answer: ChooseAnswer) -> view.Sure | None:
    usual = answer.usual
    if usual is None:
        return None
    below = _lines(usual_lines(answer)[1:])
    twice = f"An estimate; {in_hundred(usual.double)} if twice as much goes wrong."
    return view.Sure(usual_words(answer), hundred(usual.chance), (twice, *below))


def _raises(answer: ChooseAnswer) -> tuple[view.Raise, ...]:
    return tuple(
        view.Raise(
            worded.what,
            worded.minutes,
            hundred(act.chance),
            worded.then,
            rise(act.chance_without, act.chance),
        )
        for act, worded in zip(answer.acts, acts(answer), strict=True)
    )


def _missing(answer: ChooseAnswer, rebuild: Rebuild, show: Figures) -> tuple[view.Missing, ...]:
    words = _lines(lacking_sizes(answer.lacking, show))
    return tuple(
        view.Missing(line, rebuild.sizes[size.key].start.part if size.key in rebuild.sizes else "")
        for line, size in zip(words, answer.lacking, strict=True)
    )


def _fit(one: SettingAnswer, answer: ChooseAnswer, rebuild: Rebuild, show: Figures) -> view.Fit:
    pack = one.pack if one.nut is None else None
    figure, unit, other = ("", "", "") if pack is None else _both(pack.thickness_mm, show)
    return view.Fit(
        one.part,
        figure,
        unit,
        other,
        " + ".join(pack.pieces) if pack else "",
        _stack(pack, rebuild.system) if pack and pack.thickness_mm > 0 else None,
        _advice(one, answer, show),
        _around(one, show),
        one.thicker[:1].upper() + one.thicker[1:],
        tuple(view.Row(figure, label) for figure, label in sum_rows(one, show)),
        _ways(one, show),
    )


def _both(mm: float, show: Figures) -> tuple[str, str, str]:
    """Write a length in its first system, taken apart, and in the other."""
    figure, unit = show.bare(mm).split(" ")
    other: System = "inch" if show.first == "mm" else "mm"
    return figure, unit, Figures(other, both=False).bare(mm)


def _stack(pack: PackAnswer, system: System) -> view.Stack | None:
    read = [read_size(text, system) for text in pack.pieces]
    pieces = [size.mm for size in read if isinstance(size, Size)]
    told = f"A pack of {' and '.join(pack.pieces)}"
    return stack(pieces, told) if pieces else None


def _advice(one: SettingAnswer, answer: ChooseAnswer, show: Figures) -> str:
    if one.nut is not None:
        return _lines(set_nut(one, one.nut, show))[0]
    words = advice(one, answer, show)
    pack = one.pack
    if pack and words == f"{show.length(pack.thickness_mm)}{pieces(pack)}":
        return ""  # it is said by the figure and its picture
    return words[:1].upper() + words[1:]


def _around(one: SettingAnswer, show: Figures) -> tuple[str, ...]:
    if one.nut is not None:
        return tuple(
            line for line in _lines(set_nut(one, one.nut, show))[1:] if line != _capital(one)
        )
    now = (f"In now: {show.length(one.fitted_mm)}",) if one.fitted_mm is not None else ()
    lies = ("It lies between {} and {}.".format(*one.between),) if any(one.between) else ()
    return (*now, *lies, *_lines(why_words(one, show)))


def _capital(one: SettingAnswer) -> str:
    return one.thicker[:1].upper() + one.thicker[1:]


def _ways(one: SettingAnswer, show: Figures) -> tuple[view.Way, ...]:
    """Put the recommended way first, and last what cannot be gone."""
    gone = [r for r in one.routes if one.nut is None or r.name in TOLD]
    order = sorted(gone, key=lambda r: (r.name != one.route, r.chance is None, -(r.chance or 0.0)))
    return tuple(_way(one, route, show) for route in order)


def _way(one: SettingAnswer, route: RouteAnswer, show: Figures) -> view.Way:
    nut = one.nut
    said = nut_route_words(one, nut, route, show) if nut else route_words(one, route, show)
    name = TOLD[route.name] if nut else route.name
    if route.chance is None:
        why = f"Cannot be gone: {route.why_not}."
        return view.Way(name, None, False, (why,))
    best = route.name == one.route
    return view.Way(name, hundred(route.chance), best, _lines(said[1:]))
