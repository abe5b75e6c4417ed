"""What a person changed in a draft by hand, kept beside the checklist and applied again at each redraft."""
