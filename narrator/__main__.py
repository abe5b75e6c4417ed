"""`python -m narrator`."""

from narrator.commands import main

main()
