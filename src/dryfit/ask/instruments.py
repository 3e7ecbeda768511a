"""The instrument a check is read by where the text does not say."""

USUAL_INSTRUMENT = {
    "end float": "dial indicator",
    "gap": "feelers",
    "depth": "depth micrometer",
    "thickness": "micrometer",
    "backlash": "dial indicator",
    "shake": "dial indicator",
    "cord pull": "spring balance",
    "flushness": "feelers",
    "lift": "dial indicator",
}
"""By kind of check: common practice, no source."""
