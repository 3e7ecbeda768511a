"""One module a question: a request and an answer as plain data, the only door for any front end.

`opening` reads a text and collects findings, `answers` has the parts that answers share, `review`,
`expect`, `choose`, `judge`, `begin`, `demos` and `walk` are the questions; `walk_texts` reads what
is typed for a walk, `walk_slips` says why one cannot be answered, `walk_answers` has its parts.
`order` is the door to the modules in `ordering`.
"""
