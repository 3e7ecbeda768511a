"""The rebuild as text: reading it, saying where something stands, changing one thing in it.

`characters` turns bytes into text, `build` text into the nodes of `nodes`, `syntax` words what
keeps it from being read, `tree` puts them together and `locate` gives lines and columns.

`edit` makes one change by splicing it in: `cuts` says where the text is cut, `spell` how a value
is written, `rename` what follows from a new name, `data` what the text must say afterwards.
"""
