"""Sizes and other quantities as typed at the bench, how they are printed, and findings.

`size` and `limits` read lengths, `quantity` reads everything else, `show` prints both, `finding`
says what is wrong and where.
"""

from dryfit.quantities.finding import Finding, Level, Place, Range, stops
from dryfit.quantities.lengths import System
from dryfit.quantities.limits import SizeRange, read_range
from dryfit.quantities.mark import Mark, is_mark, read_mark
from dryfit.quantities.preload_range import PreloadRange, read_preload
from dryfit.quantities.quantity import Quantity, read_quantity
from dryfit.quantities.show import (
    decimals_for,
    echo,
    show_band,
    show_both,
    show_length,
    show_quantity,
    typed,
)
from dryfit.quantities.size import NotKnown, Size, read_size
from dryfit.quantities.units import Kind
from dryfit.quantities.unreadable import Unreadable

__all__ = [
    "Finding",
    "Kind",
    "Level",
    "Mark",
    "NotKnown",
    "Place",
    "PreloadRange",
    "Quantity",
    "Range",
    "Size",
    "SizeRange",
    "System",
    "Unreadable",
    "decimals_for",
    "echo",
    "is_mark",
    "read_mark",
    "read_preload",
    "read_quantity",
    "read_range",
    "read_size",
    "show_band",
    "show_both",
    "show_length",
    "show_quantity",
    "stops",
    "typed",
]
