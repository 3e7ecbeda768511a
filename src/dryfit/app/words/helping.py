"""What another person will ask first: common practice, no source."""

ASKED = (
    "a photograph square-on and sharp, a rule beside it",
    "figures and letters on each bearing ring",
    "a sketch in section: who pushes whom",
    "which way round each bearing was",
    "was float or shake read before the strip?",
    "were there shims? which side, how many, how thick?",
    "was the reading taken with the seals in?",
    "was the shaft turned before it was read?",
    "is the belt off, are gears out of mesh?",
    "does it do it cold, or only warm?",
)
