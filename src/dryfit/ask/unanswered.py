"""What keeps a question from being answered although nothing in the rebuild is wrong."""

from collections.abc import Iterator

from dryfit.ask.asking import Asking
from dryfit.ask.at_odds import at_odds
from dryfit.ask.idle_walks import idle_walks
from dryfit.ask.targets import offered, targets
from dryfit.ask.uses import USES
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Finding


def unanswered(rebuild: Rebuild) -> tuple[Finding, ...]:
    """Find what the builder still has to say."""
    walks = idle_walks(Asking(rebuild)) if rebuild.walks else ()
    return (*_use(rebuild), *_nothing_wanted(rebuild), *at_odds(rebuild), *walks)


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
