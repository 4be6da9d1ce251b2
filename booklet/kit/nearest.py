"""The valid word that someone most likely meant."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

# Below this similarity a suggestion misleads more often than it helps.
_CUTOFF = 0.6
# difflib compares in quadratic time; no id, key or choice is longer than this.
_LONGEST_WORD = 80
_MOST_CHOICES = 500


def nearest(word: str, choices: Iterable[str]) -> str | None:
    """The choice closest to `word`, small and capital letters alike; None where none is close."""
    by_plain = {choice.casefold(): choice for choice in list(choices)[:_MOST_CHOICES]}
    close = get_close_matches(word[:_LONGEST_WORD].casefold(), by_plain, n=1, cutoff=_CUTOFF)
    return by_plain[close[0]] if close else None
