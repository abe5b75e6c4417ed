"""A firm's folder: its settings, its edits of the library, the lock that remembers what each edit replaced."""
