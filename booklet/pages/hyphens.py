"""Where a long word may be broken: never without a hyphen."""

from __future__ import annotations

import re
from functools import lru_cache

import pyphen

SOFT_HYPHEN = "\u00ad"
# A part of a broken word has at least so many letters.
_LEAST = 3
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
    return SOFT_HYPHEN.join(part if len(part) <= longest else _anywhere(part) for part in parts)


def _by_language(letters: str, language: str) -> str:
    dictionary = _dictionary(language)
    return dictionary.inserted(letters, SOFT_HYPHEN) if dictionary else letters


def _anywhere(part: str) -> str:
    first, middle, last = part[:_LEAST], part[_LEAST:-_LEAST], part[-_LEAST:]
    return SOFT_HYPHEN.join((first, *middle, last)) if len(part) > 2 * _LEAST else part
