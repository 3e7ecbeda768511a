"""Rows that had not settled when the float was read that a setting is made by.

Until a shaft has been turned, its rows stand the rings apart, and the float is read short. A pack
made by that reading is off by as much, and the unit has more float, or less nip, than it seems.
"""

from dryfit.ask.asking import Amount, Asking, Thick
from dryfit.ask.changes import as_thick
from dryfit.ask.misreadings import UNSETTLED, has_rows
from dryfit.ask.nut_routes import is_nut
from dryfit.ask.route import Route
from dryfit.ask.variant import Variant
from dryfit.model.rebuild import EndFloat
from dryfit.solve.sample import Sample


def made_unsettled(asking: Asking, part: str, route: Route) -> Variant | None:
    """Say what is wrong with a setting that is made before the rows have settled.

    Parameters
    ----------
    asking
        The unit [asking]
    part
        The setting [text]
    route
        How it is found, its reading not taken yet [route]

    Returns
    -------
    variant
        None where no float of rows is read for it [variant]

    Valid
    -----
    Readings that are short by alike, if there are more than one.

    Source
    ------
    By how much is an estimate: `misreadings.UNSETTLED`.

    Examples
    --------
    See tests/ask/test_settling.py.

    >>> UNSETTLED[0] < UNSETTLED[1]
    True
    """
    check = route.check
    if route.taken is not None or not isinstance(check, EndFloat) or not has_rows(asking, check):
        return None
    nut = is_nut(asking.rebuild, part)
    sign = 1.0 if nut else -route.sign
    made = "set" if nut else "made"

    def change(asked: Asking, amount: Amount) -> Asking:
        def thick(drawn: Sample, meant: Thick) -> Thick:
            return {part: meant[part] + sign * amount(drawn.draws)}

        return as_thick(asked, thick)

    return Variant(
        f"not settled when set: {part}",
        "not settled",
        (part,),
        f"{part} {made} by a float read before the rows had settled",
        change,
        between=UNSETTLED,
    )
