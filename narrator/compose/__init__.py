"""Composing: typed values, wording chosen and filled in, page one, sheets, the report value."""
