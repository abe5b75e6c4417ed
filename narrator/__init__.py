"""narrator: from a field checklist to a report narrative."""

__version__ = "1.0.0"
