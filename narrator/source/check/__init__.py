"""The checks of a library: form, references, names, wording, and each entry's own cases."""
