"""`python -m hookwright.cli`: the same as `hookwright`."""

from . import main

if __name__ == "__main__":
    main()
