"""Settings tried on: what every check reads with other packs than the text has."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from dryfit.app.usecases.choose import ChooseAnswer, told, unread
from dryfit.app.usecases.opening import open_text
from dryfit.ask.asking import Asking, usual_draws
from dryfit.ask.moved import moved
from dryfit.model.parts import Nut
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Size, Unreadable, read_size
from dryfit.quantities.finding import near
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.sizes import metres


@dataclass(frozen=True)
class TryAnswer:
    """What is to be said, or what is wrong with the packs that were named."""

    answer: ChooseAnswer | None
    slips: tuple[str, ...] = ()


def try_on(data: bytes, typed: Sequence[str]) -> TryAnswer:
    """Answer with packs such as `cover shim: 0.40` in place of those of the text."""
    opened = open_text(data)
    if opened.stopped:
        return TryAnswer(unread(opened))
    read = [pack_named(opened.rebuild, text) for text in typed]
    packs = dict(one for one in read if not isinstance(one, str))
    slips = [one for one in read if isinstance(one, str)]
    slips += _twice([one[0] for one in read if not isinstance(one, str)])
    slips += [] if slips else _not_told(opened.rebuild, packs)
    if slips:
        return TryAnswer(None, tuple(slips))
    asking = Asking(opened.rebuild, usual_draws(opened.rebuild))
    try:
        closing = moved(asking, packs)
    except NoAnswer as why:
        return TryAnswer(None, (f"{why}: {why.way_out}",))
    return TryAnswer(told(opened, closing, first_look=asking.first_look.count))


def pack_named(rebuild: Rebuild, text: str) -> tuple[str, float] | str:
    """Read one pack, or say what is wrong with it."""
    name, colon, size = (part.strip() for part in text.partition(":"))
    if not colon:
        return f"'{text}': write the setting, a colon, and its thickness: \"cover shim: 0.40\""
    if name not in rebuild.settings:
        return f"'{name}' is no setting: {near(name, [*rebuild.settings])}"
    try:
        found = read_size(size, rebuild.system)
    except Unreadable as error:
        return f"'{name}: {size}': {error.where_known()}"
    if not isinstance(found, Size):
        return f"'{name}: {size}': type its thickness, 0 if nothing is in"
    if found.value < 0 and not isinstance(rebuild.parts[name], Nut):
        return f"'{name}: {size}': no pack is thinner than nothing: type 0 or more"
    return name, metres(found)


def _not_told(rebuild: Rebuild, packs: Mapping[str, float]) -> Iterator[str]:
    """What is neither fitted nor tried on would be taken as nothing."""
    for name, setting in rebuild.settings.items():
        if setting.fitted is None and name not in packs:
            yield f"'{name}' is not fitted in the text: name what to try there too"


def _twice(names: Sequence[str]) -> Iterator[str]:
    for name in dict.fromkeys(names):
        if names.count(name) > 1:
            yield f"'{name}' is named twice: which of them is in?"
