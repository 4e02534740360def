"""`python -m hookwright.cli`: the same as `hookwright`."""

from . import main

main()
