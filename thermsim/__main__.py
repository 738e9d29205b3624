"""`python -m thermsim`: the same as the command `thermsim`."""

import sys

from thermsim.cli.main import main

if __name__ == "__main__":
    sys.exit(main())
