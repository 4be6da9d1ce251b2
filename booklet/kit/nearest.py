"""The valid word that someone most likely meant."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import SequenceMatcher

# Below this likeness a suggestion misleads more often than it helps.
_LEAST_LIKENESS = 0.6
# The first letter is rarely mistyped: `papre` is paper, not spare.
_SAME_START = 0.05
# Comparing takes quadratic time; no id, key or choice is longer, no list of them either.
_LONGEST_WORD = 80
_MOST_CHOICES = 500


def nearest(word: str, choices: Iterable[str]) -> str | None:
    """The choice closest to `word`, small and capital letters alike; None where none is close.

    Of two that are equally close, the one that stands first.
    """
    typed = word[:_LONGEST_WORD].casefold()
    best, best_likeness = None, _LEAST_LIKENESS
    for choice in list(choices)[:_MOST_CHOICES]:
        likeness = _likeness(typed, choice[:_LONGEST_WORD].casefold())
        if likeness > best_likeness:
            best, best_likeness = choice, likeness
    return best


def _likeness(word: str, choice: str) -> float:
    """From 0 to 1 and a little more: the share of letters that both have in one order."""
    matcher = SequenceMatcher(None, word, choice)
    if matcher.quick_ratio() + _SAME_START <= _LEAST_LIKENESS:
        return 0
    return matcher.ratio() + (_SAME_START if word[:1] == choice[:1] else 0)
