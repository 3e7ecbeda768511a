"""What `order` is worked out from.

`unit` is a rebuild as bodies, put together from `bodies` and `axes`; `job` makes steps of it, with
`checks`, `own` steps and wishes. `reach` and `between` say how instruments get to what is read,
`pulling` how tight rings are got at. `schedule` plans for the sheet. `steps` says all of each step:
`work`, `means`, `presses`, `tools`, `no_return`; `answers` and `findings` are what comes of it.
"""
