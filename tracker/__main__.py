"""`python -m tracker` is the command `rowteller`."""

import sys

from tracker.cli import main

if __name__ == "__main__":
    sys.exit(main())
