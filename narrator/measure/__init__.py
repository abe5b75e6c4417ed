"""Quantities of the checklist: read them, convert them, print them, hold them against published figures."""
