"""Sources: YAML with positions, schemas, entries, the stored index."""
