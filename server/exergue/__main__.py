"""`python -m exergue` is the same as `exergue`."""

import sys

from exergue.cli import main

sys.exit(main())
