"""The exception that ends an edit which cannot be made."""


class Refused(Exception):
    """Why an edit cannot be made: what a finding says, all but the place."""

    def __init__(self, code: str, message: str, way_out: str) -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.way_out = way_out
