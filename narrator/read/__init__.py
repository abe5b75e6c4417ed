"""Reading: the notation and the structured forms."""
