"""The rebuild as frozen records, and the rules that need no arithmetic.

`parts` has one record for each kind of part, `rebuild` the whole, `rules` what must hold
between the records before any number is worked out.
"""
