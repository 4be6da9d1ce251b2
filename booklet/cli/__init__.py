"""The command line."""

from booklet.cli.main import main, run

__all__ = ["main", "run"]
