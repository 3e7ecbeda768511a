"""What must hold of a setting before any number is worked out."""

from collections.abc import Iterator

from dryfit.model.known import parts_known
from dryfit.model.parts import Nut, Part, ShimPack, Spacer, ThrustWasher
from dryfit.model.rebuild import Rebuild, Setting
from dryfit.quantities import Finding, Place, Size
from dryfit.quantities.finding import a

MAY_BE_SET = (ShimPack, ThrustWasher, Spacer)

THICKEST = 10
"""No pack of shims is thicker: estimate [mm]."""


def setting_rules(rebuild: Rebuild) -> Iterator[Finding]:
    """A setting is a part that can be changed, in one stated way."""
    for name, setting in rebuild.settings.items():
        place: Place = ("settings", name)
        yield from parts_known(rebuild, [name], place)
        part = rebuild.parts.get(name)
        if isinstance(part, Nut) or (setting.set_by is not None and part is not None):
            yield from _nut_set(part, setting, place)
            continue
        if part is not None and not isinstance(part, MAY_BE_SET):
            yield Finding(
                "setting.kind",
                place,
                f"'{name}' is {a(part.kind)}: its thickness cannot be chosen",
                "make a shim pack, a thrust washer, a spacer or a nut that adjusts the setting",
            )
        yield from _thick(part, setting.fitted, (*place, "fitted"))
        ways = [setting.made_from, setting.one_of, setting.cut_to_size]
        blamed = any(p[:2] == place for p in rebuild.unread)
        if sum(bool(way) for way in ways) != 1 and not blamed:
            yield Finding(
                "setting.way",
                place,
                "it is not clear what it may be made of",
                "write one of: made from: [...], one of: [...], cut to size: +/- 0.01",
            )


def _nut_set(part: Part, setting: Setting, place: Place) -> Iterator[Finding]:
    """A nut that adjusts is set by a reading, and made of nothing."""
    if not isinstance(part, Nut):
        yield Finding(
            "setting.set by",
            (*place, "set by"),
            f"'{part.name}' is {a(part.kind)}: only a nut that adjusts is set by a reading",
            "write one of: made from: [...], one of: [...], cut to size: +/- 0.01",
        )
        return
    ways = [setting.made_from, setting.one_of, setting.cut_to_size]
    if any(ways) or (setting.fitted is not None and setting.fitted is not part.set_to):
        yield Finding(
            "setting.nut",
            place,
            f"'{part.name}' is {a(part.kind)}: it has no thickness to choose",
            f"write {part.name}: {{set by: dial indicator}} here, and among the parts what it is "
            "set to now, as set to: 0.06",
        )
    elif setting.set_by is None:
        yield Finding(
            "setting.nut by",
            place,
            f"it is not said what '{part.name}' is set by",
            "write set by: dial indicator, or another instrument that reads the float",
        )
    if part.torque is not None:
        yield Finding(
            "setting.clamps",
            place,
            f"'{part.name}' has a torque, so it clamps and adjusts nothing",
            "take it out of the settings, or take the torque out",
        )


def _thick(part: Part | None, fitted: Size | None, place: Place) -> Iterator[Finding]:
    """A pack is not less than nothing, and not as thick as a spacer."""
    if fitted is not None and fitted.value < 0:
        yield Finding(
            "size.not positive",
            place,
            f"what is fitted cannot be {fitted.text} thick",
            "type its thickness without a sign, 0 if nothing is in",
        )
    if isinstance(part, ShimPack) and fitted is not None and fitted.value > THICKEST:
        yield Finding(
            "setting.thick",
            place,
            f"a pack of {fitted.text} is thicker than shims are stacked, {THICKEST} mm at most",
            "look at its point and unit; what fills a fixed length is a spacer",
            "note",
        )
