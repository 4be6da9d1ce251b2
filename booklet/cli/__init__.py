"""The command line."""

from booklet.cli.main import main

__all__ = ["main"]
