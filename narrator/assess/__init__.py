"""Judging: verdicts, grades, groups, stories, headers, contradictions."""
