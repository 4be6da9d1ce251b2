"""The parser of one command, which is asked for its arguments when it is typed: then alone it is imported."""

from __future__ import annotations

from argparse import ArgumentParser
from collections.abc import Callable
from typing import Any


class VerbParser(ArgumentParser):
    """A parser that takes a command's words wherever they stand, also after its options.

    argparse gives `find SOURCE --json WORDS` no words: a list that may be empty is closed by an option.
    `declare` adds the arguments of the command, and what it does.
    """

    def __init__(self, *given: Any, declare: Callable[[VerbParser], None], **named: Any) -> None:
        super().__init__(*given, **named)
        self._declare: Callable[[VerbParser], None] | None = declare
        self._is_mixing = False

    def declared(self) -> VerbParser:
        """The parser with its arguments."""
        declare, self._declare = self._declare, None
        if declare is not None:
            declare(self)
        return self

    def parse_known_args(self, args: Any = None, namespace: Any = None) -> tuple[Any, list[str]]:
        """Read the options first, and what stands between them then."""
        if self._is_mixing:  # the way of argparse to do so calls this method
            return super().parse_known_args(args, namespace)
        self.declared()
        self._is_mixing = True
        try:
            return self.parse_known_intermixed_args(args, namespace)
        finally:
            self._is_mixing = False
