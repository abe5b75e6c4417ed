"""Resolving: words to entries, quantities to measures."""
