"""What a bearing is closed with and filled with, as far as it may be warmed: `filled`."""

from collections.abc import Iterator

from dryfit.model.parts import Bearing
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Finding

BOTH_SIDES, ONE_SIDE, NO = "both sides", "one side", "no"
SEALED = (BOTH_SIDES, ONE_SIDE, NO)
GREASED = ("for life", NO)
PLASTIC = "plastic"
CAGES = (PLASTIC, "steel", "brass", "bronze", "none")
"""What a cage is made of; none where the rollers or balls lie side by side."""

WORDS = {"cage": CAGES, "sealed": SEALED, "greased": GREASED}
"""By key what may stand behind it."""


def filled(part: Bearing) -> bool | None:
    """Tell whether a bearing has seals, grease for life or a plastic cage; None if not known.

    Examples
    --------
    >>> filled(Bearing("b", "taper roller", cage="plastic"))
    True
    >>> filled(Bearing("b", "taper roller", cage="steel", sealed="no"))
    False
    >>> filled(Bearing("b", "taper roller", cage="steel"))
    """
    if part.cage == PLASTIC or part.greased == GREASED[0] or part.sealed in (BOTH_SIDES, ONE_SIDE):
        return True
    return False if part.cage is not None and part.sealed == NO else None


def filled_rules(rebuild: Rebuild) -> Iterator[Finding]:
    """Each word is one of those that are known."""
    for name, part in rebuild.parts.items():
        for key, words in WORDS.items() if isinstance(part, Bearing) else ():
            typed = getattr(part, key)
            if typed is not None and typed not in words:
                yield Finding(
                    f"bearing.{key}",
                    ("parts", name, key),
                    f"{key}: '{typed}' is not one of the words known here",
                    f"write one of: {', '.join(words)}",
                )
