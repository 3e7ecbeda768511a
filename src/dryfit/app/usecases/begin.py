"""`new`: a text to start from, for a kind of unit."""

from importlib.resources import files


def kinds() -> tuple[str, ...]:
    """List the kinds of unit there is a start for."""
    folder = files("dryfit.document") / "starts"
    return tuple(
        sorted(f.name.removesuffix(".yaml") for f in folder.iterdir() if f.name.endswith(".yaml"))
    )


def start(kind: str) -> bytes:
    """Give the text to start from."""
    return (files("dryfit.document") / "starts" / f"{kind}.yaml").read_bytes()
