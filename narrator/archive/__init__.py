"""An archive of inspections: a folder, what a change of wording would alter in it, and what its edits teach."""
