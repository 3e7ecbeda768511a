"""The command line: `main` the commands, `sheet` the words for an answer, `figures` its numbers."""
