"""Effort, counted in work done and never in seconds: the same question ends the same way on any machine."""

from __future__ import annotations


class OutOfEffortError(Exception):
    """The stated effort is used up before the question is settled."""


class Effort:
    """A budget of elementary steps; roughly a hundred million of them take a second."""

    def __init__(self, limit: int, spent: int = 0) -> None:
        self.limit = limit
        self.spent = spent

    def part(self, limit: int) -> Effort:
        """A budget of at most `limit` within what is left of this one; `charge` it back afterwards."""
        return Effort(min(limit, self.limit - self.spent))

    def charge(self, part: Effort) -> None:
        """Count what was spent of a part; never raises, so that what was found with it is kept."""
        self.spent = min(self.limit, self.spent + part.spent)

    def spend(self, steps: int) -> None:
        """Count `steps` of work; raises `OutOfEffortError` once the limit is passed."""
        self.spent += steps
        if self.spent > self.limit:
            raise OutOfEffortError(f"{self.limit} steps of effort are used up")
