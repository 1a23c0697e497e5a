"""`python -m advisor` is the command `advisor`."""

from advisor.cli import main

main()
