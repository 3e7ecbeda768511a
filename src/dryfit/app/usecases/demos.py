"""The demos: invented machines with their traps, as texts a user could have written."""

from importlib.resources import files

FIRST = "bevel-box"


def names() -> tuple[str, ...]:
    """List the demos, the first one first."""
    folder = files("dryfit.app") / "demos"
    files_in = [f.name for f in folder.iterdir()]
    found = sorted(n.removesuffix(".yaml") for n in files_in if n.endswith(".yaml"))
    return (FIRST, *(name for name in found if name != FIRST))


def text(name: str) -> bytes:
    """Give the text of a demo."""
    return (files("dryfit.app") / "demos" / f"{name}.yaml").read_bytes()
