"""A setting moved, and what then is: a first look, quick enough to try one pack after another."""

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.closing import Closing
from dryfit.ask.expect import expect
from dryfit.ask.harm import harm
from dryfit.ask.in_hand import Set, as_fitted
from dryfit.ask.needed import needed
from dryfit.ask.nut_routes import is_nut, turned
from dryfit.ask.settings import chance, moved_by
from dryfit.ask.slopes import lacking
from dryfit.ask.targets import Target, targets
from dryfit.model.rebuild import HOT
from dryfit.solve.states import states_of


def moved(asking: Asking, packs: Packs) -> Closing:
    """Ask what every check reads, how each want stands and how sure it is with these packs.

    Parameters
    ----------
    asking
        The unit; asked again, it answers sooner [asking]
    packs
        Thickness of the settings that are moved; the others stay as fitted [m]

    Returns
    -------
    closing
        Without reasons, routes, acts and second figure; of the draws of `asking.first_look`
        [closing]

    Raises
    ------
    NoAnswer
        A want has no answer with these packs.

    Valid
    -----
    Units whose sizes are known.

    Source
    ------
    None needed: the same questions with fewer draws.

    Examples
    --------
    See tests/ask/test_moved.py.

    >>> from dryfit.model.rebuild import Rebuild
    >>> moved(Asking(Rebuild("mm")), {}).settings
    ()
    """
    look = asking.first_look
    wanted, here = targets(look.rebuild), look.with_fitted(packs)
    missing = {s.key: s for t in wanted for s in lacking(look, t.need, here)}
    known = bool(wanted) and not missing
    return Closing(
        wanted,
        tuple(_set(look, wanted, part, here) for part in look.rebuild.settings),
        expect(look, wanted, here),
        None,
        None,
        chance(look, wanted, here) if known else None,
        harm(look, wanted, here) if known else None,
        HOT in states_of(look.rebuild),
        (),
        tuple(missing.values()),
        needed(look, wanted, here),
    )


def _set(look: Asking, wanted: tuple[Target, ...], part: str, packs: Packs) -> Set:
    """Tell one setting as it is tried; of a nut, how it is set so."""
    mine = moved_by(look, wanted, part, packs) if is_nut(look.rebuild, part) else ()
    nut = turned(look, mine[0], part, packs) if mine else None
    return as_fitted(look, part, float(packs[part]), nut)
