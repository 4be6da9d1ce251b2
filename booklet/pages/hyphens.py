"""Where a long word may be broken: never without a hyphen."""

from __future__ import annotations

import re
from functools import lru_cache

import pyphen

SOFT_HYPHEN = "\u00ad"
# A part of a broken word has at least so many letters.
_LEAST = 3
# More letters than these are no word of any language; it may be broken so often in a line.
_NO_WORD, _IN_LINE = 150, 3
_WORD = re.compile(r"[^\W\d_]{2,}")


@lru_cache(maxsize=8)
def _dictionary(language: str) -> pyphen.Pyphen | None:
    known = pyphen.language_fallback(language.replace("-", "_"))
    return pyphen.Pyphen(lang=known, left=_LEAST, right=_LEAST) if known else None


@lru_cache(maxsize=1024)
def hyphenated(word: str, language: str, longest: int) -> str:
    """A word with soft hyphens where its language allows a break.

    Where that leaves a part of more than `longest` letters, it may be broken anywhere.
    """
    parts = _WORD.sub(lambda letters: _by_language(letters[0], language), word).split(SOFT_HYPHEN)
    return SOFT_HYPHEN.join(part if len(part) <= longest else _anywhere(part, longest) for part in parts)


def _by_language(letters: str, language: str) -> str:
    dictionary = _dictionary(language)
    return dictionary.inserted(letters, SOFT_HYPHEN) if dictionary else letters


def _anywhere(part: str, longest: int) -> str:
    """Breaks after each letter but the first and last few; fewer in what is no word, for each is tried."""
    if len(part) <= 2 * _LEAST:
        return part
    each = 1 if len(part) <= _NO_WORD else max(1, longest // _IN_LINE)
    middle = part[_LEAST:-_LEAST]
    between = (middle[at : at + each] for at in range(0, len(middle), each))
    return SOFT_HYPHEN.join((part[:_LEAST], *between, part[-_LEAST:]))
