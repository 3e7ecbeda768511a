"""Where a rebuild is kept: every text it ever had, what was read, photographs, and copies.

`folder` says where, `opening` opens the store there: `database` one file safely written, `forms`
the numbered SQL that made it, `copies` what is kept of it. `trouble` tells what goes wrong on the
way, `files` writes a file whole or not at all, `seal` finds a row that has changed by itself.

`revisions` are the texts with undo and redo, `edits` makes one change on the newest (`rebase` says
whether it still can be), `journal` holds what was read and done, `photographs` the pictures
(`picture` makes one safe to keep, `jpeg` proves it).

`readings` writes the journal into a text (`renames` follows names), `parcel` is a rebuild in one
zip (`spelling`, `unzip`), `spreadsheet` tables of sizes and readings, `running` which program has
the pages open. Nothing here calculates.
"""
