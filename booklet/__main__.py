"""`python -m booklet` is the same as `booklet`."""

import sys

from booklet.cli import main

sys.exit(main())
