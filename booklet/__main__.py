"""`python -m booklet` is the same as `booklet`."""

from booklet.cli import run

run()
