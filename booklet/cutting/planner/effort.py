"""Effort, counted in work done and never in seconds: the same question ends the same way on any machine."""

from __future__ import annotations


class OutOfEffortError(Exception):
    """The stated effort is used up before the question is settled."""


class Effort:
    """A budget of elementary steps; roughly a hundred million of them take a second."""

    def __init__(self, limit: int) -> None:
        self.limit = limit
        self.spent = 0

    def part(self, limit: int) -> Effort:
        """A budget of at most `limit` within what is left of this one, to be charged back to it."""
        return Effort(min(limit, self.limit - self.spent))

    def spend(self, steps: int) -> None:
        """Count `steps` of work; raises `OutOfEffortError` once the limit is passed."""
        self.spent += steps
        if self.spent > self.limit:
            raise OutOfEffortError(f"{self.limit} steps of effort are used up")
