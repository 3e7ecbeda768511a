"""How a record says what each of its keys may hold.

The records are plain frozen dataclasses; `reads` writes into a field what sort of text the layer
`document` has to read for it. The key in the text is the field's name with spaces, unless `key`
says otherwise.
"""

from dataclasses import field
from typing import Any


def reads(sort: str, *, key: str | None = None, required: bool = False, default: Any = None) -> Any:
    """Declare a field that is read from the text as `sort` (a name in `document.readers`)."""
    metadata = {"reads": sort, "key": key, "required": required}
    return field(default=default, metadata=metadata)
