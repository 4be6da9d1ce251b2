"""Telling someone who waits which sheet is being planned."""

from __future__ import annotations

from collections.abc import Callable

# Is told which sheet is planned now, by its id, its number among those that are, and how many these are.
Begun = Callable[[str, int, int], None]


def not_told(sheet: str, number: int, total: int) -> None:
    """Nobody waits to be told."""
