"""The virtual bench: true units drawn around a document, read with error, to try the answers on."""
