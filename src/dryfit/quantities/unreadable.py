"""What is raised when a typed value cannot be read without a guess."""

OR_NOT_KNOWN = "; or: not known"
"""How a way out ends where a size may be left open."""


class Unreadable(ValueError):
    """A typed value that has no reading, or more than one.

    Attributes
    ----------
    code
        Short name of this sort of trouble, fixed for good: `size.comma`.
    column
        The doubtful character, counted from 0 in the text as it was handed over.
    message
        What was read and why there is doubt.
    way_out
        What to type instead.
    """

    def __init__(self, code: str, column: int, message: str, way_out: str) -> None:
        super().__init__(code, column, message, way_out)
        self.code = code
        self.column = column
        self.message = message
        self.way_out = way_out

    def where_known(self) -> "Unreadable":
        """Say the same where `not known` is no answer."""
        way_out = self.way_out.removesuffix(OR_NOT_KNOWN)
        return Unreadable(self.code, self.column, self.message, way_out)

    def __str__(self) -> str:
        joint = " " if self.message.endswith("?") else "; "
        return f"{self.message}{joint}{self.way_out}"
