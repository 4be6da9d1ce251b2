"""Typed text in messages: made safe to repeat, and the valid word that was most likely meant."""

from __future__ import annotations

import json
from collections.abc import Iterable
from unicodedata import category

_LONGEST = 60
# Categories of Unicode: control, format, surrogate and separators of lines and paragraphs.
_UNSEEN = {"Cc", "Cf", "Cs", "Zl", "Zp"}
_SPACES = "\n\t"
# A soft hyphen, and what says whether letters beside it are joined or parted.
_JOINERS = "\u00ad\u200b\u200c\u200d"
# Below this likeness a suggestion misleads more often than it helps.
_LEAST_LIKENESS = 0.6
# The first letter is rarely mistyped: `papre` is paper, not spare.
_SAME_START = 0.05
# Comparing takes quadratic time; no id, key or choice is longer, no list of them either.
_LONGEST_WORD = 80
_MOST_CHOICES = 500


def is_unseen(letter: str) -> bool:
    """Whether a letter is a sign that nobody sees, and that moves a terminal's cursor, turns the order of
    letters about, or breaks a file of figures.
    """
    if letter.isprintable() or letter in _SPACES:
        return False
    return category(letter) in _UNSEEN and letter not in _JOINERS


def shown(text: str) -> str:
    """A typed text for a message: one line, shortened, nothing in it that could move a terminal's cursor."""
    line = " ".join(text[: 4 * _LONGEST].split())
    safe = "".join(letter if letter.isprintable() else "\ufffd" for letter in line)
    return safe if len(safe) <= _LONGEST else safe[: _LONGEST - 1].rstrip() + "…"


def quoted(text: str) -> str:
    """A typed text in quotes, where its beginning and end would not be plain."""
    return f'"{shown(text)}"'


def typed_words(words: str) -> str:
    """Words in quotes, as they would be typed."""
    return json.dumps(shown(words), ensure_ascii=False)


def any_of(choices: list[str]) -> str:
    """`top, right, bottom or left`."""
    return "".join(choices) if len(choices) < 2 else f"{', '.join(choices[:-1])} or {choices[-1]}"


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
    from difflib import SequenceMatcher  # only a mistake needs it

    matcher = SequenceMatcher(None, word, choice)
    if matcher.quick_ratio() + _SAME_START <= _LEAST_LIKENESS:
        return 0
    return matcher.ratio() + (_SAME_START if word[:1] == choice[:1] else 0)
