"""What keeps a question from being answered although nothing in the rebuild is wrong."""

from collections.abc import Iterator

from dryfit.ask.asking import Asking
from dryfit.ask.slopes import pack_slope
from dryfit.ask.targets import OFFERED, offered, targets
from dryfit.model.rebuild import Need, Rebuild
from dryfit.quantities import Finding
from dryfit.solve.benchtop import NoAnswer


def unanswered(rebuild: Rebuild) -> tuple[Finding, ...]:
    """Find what the builder still has to say."""
    return (*_use(rebuild), *_nothing_wanted(rebuild), *_settings_together(rebuild))


def _use(rebuild: Rebuild) -> Iterator[Finding]:
    """Tell that no target is known for this use."""
    kind = rebuild.used_for.kind if rebuild.used_for else None
    wanted = bool(rebuild.needs) and all(n.want for n in rebuild.needs.values())
    if kind and kind not in OFFERED and not wanted:
        yield Finding(
            "use.unknown",
            ("used for", "kind"),
            f"no float is offered for '{kind}'",
            f"there are: {', '.join(OFFERED)}; or say yourself what is wanted, under needs",
            "note",
        )


def _nothing_wanted(rebuild: Rebuild) -> Iterator[Finding]:
    """Tell a need without limits; without a target no setting can be chosen."""
    for name, need in rebuild.needs.items():
        if need.want is None and offered(rebuild) is None:
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
            "nothing says how much float is wanted, so no pack can be chosen",
            "add used for: {kind: ...}, or needs: with a want:",
            "note",
        )


def _settings_together(rebuild: Rebuild) -> Iterator[Finding]:
    """Tell two open settings that move the same need: only their sum could be said."""
    asking = Asking(rebuild, 1)
    free = [part for part, setting in rebuild.settings.items() if setting.fitted is None]
    for target in targets(rebuild):
        both = [part for part in free if _moves(asking, target.need, part)]
        for part in both[1:]:
            yield Finding(
                "setting.together",
                ("settings", part),
                f"'{both[0]}' and '{part}' both move {target.need.name}; one of them must be given",
                f"write what is in, for all but one: {part}: {{made from: [...], fitted: 0.30}}",
            )


def _moves(asking: Asking, need: Need, part: str) -> bool:
    """Tell whether a setting moves a need; one that cannot be told is not moved."""
    try:
        return bool(pack_slope(asking, need, {}, part))
    except NoAnswer:
        return False
