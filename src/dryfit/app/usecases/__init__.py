"""One module a question: a request and an answer as plain data, the only door for any front end.

`opening` reads a text and collects findings, `answers` has the parts that answers share, `review`,
`expect`, `choose`, `begin` and `demos` are the questions.
"""
