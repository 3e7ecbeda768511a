"""Packs tried on: the answer of `try_on`, or what is wrong with each that was typed."""

from dryfit.app.pages.set_say import told
from dryfit.app.pages.set_view import Tried
from dryfit.app.pages.typed import as_written
from dryfit.app.usecases.opening import open_text
from dryfit.app.usecases.try_on import pack_named, try_on


def tried(data: bytes, packs: tuple[tuple[str, str], ...]) -> Tried:
    """Try packs on; nothing typed leaves a setting as it is fitted."""
    rebuild = open_text(data).rebuild
    typed = {part: f"{part}: {as_written(size)}" for part, size in packs if size.strip()}
    slips = {
        part: found.replace(f"'{part}: ", "'", 1)  # the page names it before
        for part, text in typed.items()
        if isinstance(found := pack_named(rebuild, text), str)
    }
    if slips:
        return Tried(None, slips)
    answer = try_on(data, tuple(typed.values()))
    if answer.answer is None:
        return Tried(None, _placed(answer.slips, tuple(part for part, _ in packs)))
    return Tried(told(answer.answer, rebuild))


def _placed(slips: tuple[str, ...], parts: tuple[str, ...]) -> dict[str, str]:
    """Put each slip to the setting it begins with the name of; all others to none."""
    by_part: dict[str, str] = {}
    for slip in slips:
        part = next((part for part in parts if slip.startswith(f"'{part}'")), "")
        by_part[part] = f"{by_part[part]}; {slip}" if part in by_part else slip
    return by_part
