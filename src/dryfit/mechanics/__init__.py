"""Formulas and published tables in SI, on plain floats and arrays; they never see a rebuild.

`instruments` how far a reading may be off, `thermal` how parts grow.
"""
