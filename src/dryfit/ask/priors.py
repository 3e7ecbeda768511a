"""How often each kind of thing goes wrong in a careful shop: one table of ours, all of it estimate.

Nobody has counted. Three steps are told apart, and whoever has counted in his own shop may put
his own figures in their place.
"""

from collections.abc import Mapping
from dataclasses import dataclass

RARE, NOW_AND_THEN, OFTEN = 0.005, 0.02, 0.08
"""Of so many chances to go wrong: estimates."""

HALF, DOUBLE = 0.5, 2.0
"""A figure that rests on the table is told at these times its priors too."""


@dataclass(frozen=True, slots=True)
class Prior:
    """How likely a kind of mistake is.

    Attributes
    ----------
    chance
        That it happens at one place where it can [-].
    seen
        That the eye finds it before the unit is closed, with no reading [-].
    why
        Half a line of reason.
    """

    chance: float
    seen: float
    why: str


PRIORS: dict[str, Prior] = {
    "not home": Prior(NOW_AND_THEN, 0.3, "a tight ring feels home before it is; a feeler shows it"),
    "burr": Prior(NOW_AND_THEN, 0.3, "faces are wiped, and chips come back with the next part"),
    "not in its slot": Prior(NOW_AND_THEN, 0.3, "a tang slips while the shaft goes in"),
    "edge turned up": Prior(NOW_AND_THEN, 0.3, "shims are cut by hand and bend at the edge"),
    "shim too many": Prior(NOW_AND_THEN, 0.1, "two stick together with oil"),
    "shim missing": Prior(NOW_AND_THEN, 0.1, "packs are counted, not measured whole"),
    "left out": Prior(RARE, 0.5, "a part stays on the bench, where it is mostly seen"),
    "doubled": Prior(RARE, 0.3, "a second one was stuck to it or to the old face"),
    "thicker gasket": Prior(NOW_AND_THEN, 0.3, "cut from the sheet that was at hand"),
    "sealant": Prior(NOW_AND_THEN, 0.5, "liquid sealant is thought better than paper"),
    "not nipped down": Prior(NOW_AND_THEN, 0.0, "paper sets under its screws for some hours"),
    "swapped": Prior(NOW_AND_THEN, 0.1, "alike to the eye, and not tagged at the strip"),
    "bearings swapped": Prior(RARE, 0.1, "they came off one by one and lay in one tray"),
    "reversed": Prior(NOW_AND_THEN, 0.3, "thick and thin shoulder are easily confused"),
    "wrong pair": Prior(NOW_AND_THEN, 0.3, "single bearings were bought for a matched set"),
    "nut not up": Prior(NOW_AND_THEN, 0.2, "no spanner to fit, or the washer bent over first"),
    "dragged in locking": Prior(OFTEN, 0.1, "the nut turns along as it is locked"),
    "turned back": Prior(NOW_AND_THEN, 0.1, "not locked, or not up against its thread"),
    "cocked": Prior(NOW_AND_THEN, 0.3, "one screw is done up first, and the spigot jams"),
    "floating end stuck": Prior(NOW_AND_THEN, 0.2, "a pocket is not eased, or paint is in it"),
    "gear out of place": Prior(NOW_AND_THEN, 0.3, "a key or fillet keeps it off its shoulder"),
    "centres off": Prior(NOW_AND_THEN, 0.1, "bushes bored off centre, or a joint skimmed"),
    "wrong radius": Prior(NOW_AND_THEN, 0.0, "the dial stands where there is room for it"),
    "not settled": Prior(OFTEN, 0.0, "few turn the shaft ten times before they read"),
    "warm when read": Prior(NOW_AND_THEN, 0.0, "read while the heat of fitting is still in it"),
    "seal drag": Prior(NOW_AND_THEN, 0.3, "seals were put in before the cord was pulled"),
    "false reading": Prior(NOW_AND_THEN, 0.0, "a stand slips, a shaft is not pushed hard"),
}
"""By kind of mistake. Estimates all, chances and eyes alike."""

FOR_GOOD = frozenset(
    {
        "edge turned up",
        "shim too many",
        "shim missing",
        "doubled",
        "thicker gasket",
        "sealant",
        "swapped",
        "bearings swapped",
        "wrong pair",
        "floating end stuck",
        "gear out of place",
        "centres off",
    }
)
"""What is right for good once it was mended, however often the unit comes apart: it lies in a part
or in which part is where. All else may come about each time: common practice, no source."""


def comes_again(kind: str) -> bool:
    """Tell whether a kind of mistake may come about anew each time the unit is put together.

    Examples
    --------
    >>> comes_again("not home"), comes_again("swapped")
    (True, False)
    """
    return kind not in FOR_GOOD


def scaled(priors: Mapping[str, Prior], times: float) -> dict[str, Prior]:
    """Give the same table with all chances so many times as great, one at most.

    Examples
    --------
    >>> scaled(PRIORS, DOUBLE)["burr"].chance
    0.04
    """
    return {
        kind: Prior(min(prior.chance * times, 1.0), prior.seen, prior.why)
        for kind, prior in priors.items()
    }
