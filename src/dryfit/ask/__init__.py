"""What the builder asks: every answer puts its question to `solve.predict`.

Reading order: `asking` a rebuild with its draws, `targets` what is wanted, `packs` what the drawer
can make, `slopes` what moves a reading, `settings` which pack to fit, `routes` by which measuring,
`worth` what to measure better, `words` why a reading may differ, `expect` what each check reads.
On its own, without a rebuild: `lines`, `off_line` and `walk`, from floats read to where they end.
"""
