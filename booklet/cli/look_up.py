"""Things of a kit by what a person calls them: part of a name, in any case, with small slips of the hand."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from booklet.content.things import KitThing

# How alike two words are, from 0 to 1: the same, the same but for a plural, one the beginning of the other,
# one a part of the other; of words that are only alike so much of their likeness; the least that is a slip.
_SAME, _PLURAL, _BEGINS, _PART, _ALIKE, _LEAST = 1.0, 0.97, 0.95, 0.8, 0.9, 0.65
# A label is worth more than any name; so much more a name that has few other words.
_LABEL, _WHOLE = 2.0, 0.2
# Words that a person says before a name.
_ARTICLES = frozenset(("a", "an", "the"))
# A part of a word says something from so many letters on.
_LEAST_PART = 3
# The longest word, and the most words, that are compared.
_LONGEST, _MOST = 60, 12
_NEAREST = 3
_PLURALS = (("ies", "y"), ("ves", "f"), ("es", ""), ("s", ""))


def look_up(things: Sequence[KitThing], asked: str) -> tuple[KitThing, ...]:
    """The things that all words of what is asked may mean, the best first, else in their order."""
    words = _told_words(asked)[:_MOST]
    scored = [(_score(thing, words), thing) for thing in things] if words else []
    best = sorted((one for one in scored if one[0] > 0), key=lambda one: -one[0])
    return tuple(thing for _, thing in best)


def nearest_names(things: Sequence[KitThing], asked: str) -> tuple[str, ...]:
    """The names and labels that are nearest to what is asked, though it may mean none of them."""
    typed = " ".join(folded(asked))[:_LONGEST]
    names = dict.fromkeys(name for thing in things for name in (thing.name.text, *thing.labels))
    likeness = {name: SequenceMatcher(None, typed, " ".join(folded(name))).ratio() for name in names}
    return tuple(sorted(names, key=lambda name: -likeness[name])[:_NEAREST])


def folded(text: str) -> list[str]:
    """The words of a text in small letters without their accents."""
    bare = "".join(
        letter
        for letter in unicodedata.normalize("NFKD", text.casefold())
        if not unicodedata.combining(letter)
    )
    return "".join(letter if letter.isalnum() else " " for letter in bare).split()


def _told_words(asked: str) -> list[str]:
    """The words of what is asked, without articles, unless it is nothing else."""
    words = folded(asked)
    return [word for word in words if word not in _ARTICLES] or words


def _score(thing: KitThing, words: Sequence[str]) -> float:
    """How well a thing is meant by words: 0 where one of them is nothing like it."""
    labels = {label.casefold() for label in thing.labels}
    names = folded(thing.name.text)
    known = [*names, thing.kind.value, *labels]
    total = 0.0
    for word in words:
        best = max((_likeness(word, other) for other in known), default=0.0)
        if best < _LEAST:
            return 0.0
        total += _LABEL if word in labels else best
    meant = sum(any(_likeness(word, name) >= _LEAST for word in words) for name in names)
    return total / len(words) + _WHOLE * meant / max(len(names), 1)


def _likeness(word: str, other: str) -> float:
    if word == other:
        return _SAME
    if any(letter.isdigit() for letter in word + other):
        return 0.0  # another number is no slip
    if set(_singulars(word)) & set(_singulars(other)):
        return _PLURAL
    if len(word) >= _LEAST_PART and word in other:
        return _BEGINS if other.startswith(word) else _PART
    likeness = SequenceMatcher(None, word[:_LONGEST], other[:_LONGEST]).ratio()
    return _ALIKE * likeness


def _singulars(word: str) -> Iterator[str]:
    yield word
    for ending, instead in _PLURALS:
        if len(word) > len(ending) + 2 and word.endswith(ending):
            yield word.removesuffix(ending) + instead
