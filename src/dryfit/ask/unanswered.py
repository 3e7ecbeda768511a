"""What keeps a question from being answered although nothing in the rebuild is wrong."""

from collections.abc import Iterator
from math import inf

from dryfit.ask.asking import Asking
from dryfit.ask.idle_walks import idle_walks
from dryfit.ask.targets import named, offered, targets
from dryfit.ask.uses import USES
from dryfit.model.rebuild import LashNeed, NipNeed, PreloadNeed, Rebuild
from dryfit.quantities import Finding


def unanswered(rebuild: Rebuild) -> tuple[Finding, ...]:
    """Find what the builder still has to say."""
    walks = idle_walks(Asking(rebuild)) if rebuild.walks else ()
    return (*_use(rebuild), *_nothing_wanted(rebuild), *_at_odds(rebuild), *walks)


def _use(rebuild: Rebuild) -> Iterator[Finding]:
    """Tell that no target is known for this use."""
    kind = rebuild.used_for.kind if rebuild.used_for else None
    wants = [getattr(need, "want", None) for need in rebuild.needs.values()]
    if kind and kind not in USES and not (wants and all(wants)):
        yield Finding(
            "use.unknown",
            ("used for", "kind"),
            f"nothing is offered for '{kind}'",
            f"there are: {', '.join(USES)}; or say yourself what is wanted, under needs",
            "note",
        )


def _nothing_wanted(rebuild: Rebuild) -> Iterator[Finding]:
    """Tell a need without limits; without a target no setting can be chosen."""
    for name, need in rebuild.needs.items():
        if getattr(need, "want", None) is None and offered(rebuild, need) is None:
            yield Finding(
                "want.none",
                ("needs", name),
                f"nothing says how much '{name}' should be",
                "add want: 0.05 to 0.15, or say under used for: what the unit does",
                "note",
            )
    if rebuild.settings and not rebuild.needs and not targets(rebuild):
        yield Finding(
            "want.none",
            ("settings",),
            "nothing says what is wanted of the finished unit, so no pack can be chosen",
            "add used for: {kind: ...}, or needs: with a want:",
            "note",
        )


def _at_odds(rebuild: Rebuild) -> Iterator[Finding]:
    """Tell two wants of one part or mesh that cannot both be met."""
    seen: dict[tuple[object, ...], tuple[str, float, float]] = {}
    for target in targets(rebuild) if rebuild.needs else ():
        need = target.need
        low = -inf if target.low is None else target.low
        high = inf if target.high is None else target.high
        if isinstance(need, NipNeed):  # a nip is a float the other way
            low, high = -high, -low
        if isinstance(need, PreloadNeed):
            continue
        held = (getattr(need, which, None) for which in ("on", "pinion", "wheel"))
        about = (isinstance(need, LashNeed), named(need), need.state, *held)
        name, least, most = seen.setdefault(about, (need.name, low, high))
        if low > most or high < least:
            yield Finding(
                "want.at odds",
                ("needs", need.name, "want"),
                f"this and '{name}' cannot both be true of '{named(need)}'",
                "take one of them out, or widen it until they meet",
            )
