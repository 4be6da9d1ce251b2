"""Small words that every part of the booklet uses: counts, lists, names, units."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.content.spans import Extent, Length, Line, Number, Own, Part, Weight, Words, joined, line
from booklet.kit.finding import SpecPath
from booklet.kit.steps import Corner
from booklet.measure.dataclass import replace
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.measure.words import print_length

_NUMERALS = (
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
)
_UNITS = {Unit.INCH: "inches", Unit.MILLIMETRE: "millimetres", Unit.CENTIMETRE: "centimetres"}


class EnglishBasics:
    """Counts, lists and names in English."""

    def count(self, count: int) -> str:
        """A small count as a word, a larger one in figures."""
        return _NUMERALS[count] if count < len(_NUMERALS) else str(count)

    def few(self, count: int, source: SpecPath) -> Number:
        """A count within a sentence: a small one as a word."""
        return Number(Fraction(count), self.count(count), source)

    def number(self, value: Fraction | int, unit: Unit, source: SpecPath) -> Number:
        """A count in figures; halves as a kit in this unit writes them: `2¹⁄₂`, `2.5`."""
        return Number(Fraction(value), print_length(Fraction(value), unit), source)

    def plural(self, count: int, noun: str, plural: str = "") -> str:
        """A noun for so many: `piece`, `pieces`."""
        return noun if count == 1 else plural or f"{noun}s"

    def counted(self, count: Number, noun: str, plural: str = "") -> Line:
        """So many of a noun, which brings the space before it: `1 piece`, `2 pieces`."""
        return line(count, self.plural(int(count.value), noun, plural))

    def wide(self, width: Length) -> Line:
        """`3 1/4 wide`."""
        return line(width, " wide")

    def across(self, length: Length) -> Line:
        """The size of what is round or square."""
        return line(length, " across")

    def size_head(self, unit: Unit) -> Line:
        """The head of a column of sizes."""
        return line(f"Size, {unit.value}")

    def listed(self, parts: Sequence[Part]) -> Line:
        """`A`, `A and B`, `A, B and C`."""
        return joined((joined(parts[:-1], ", "), *parts[-1:]), " and ")

    def several(self, count: int, name: Own) -> Own:
        """The designer's name for a piece, for so many: `rail`, `rails`."""
        return name if count == 1 else replace(name, text=_several(name.text))

    def corners(self, corners: Sequence[Corner]) -> str:
        """`all four corners`, `the top left and top right corners`."""
        said = list(dict.fromkeys(corner.value for corner in corners))
        if len(said) == len(Corner):
            return "all four corners"
        return f"the {and_(said)} corner{'s' if len(said) > 1 else ''}"

    def capital(self, said: Line) -> Line:
        """A line whose first word of the language begins with a capital."""
        if said and isinstance(said[0], Words):
            first = said[0]
            return (Words(first.text[:1].upper() + first.text[1:], first.weight), *said[1:])
        return said

    def unit(self, unit: Unit) -> str:
        """A unit's name in full, for several of it."""
        return _UNITS[unit]


BASICS = EnglishBasics()


def and_(words: Sequence[str]) -> str:
    """`top`, `top and right`, `top, right and left`."""
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else "".join(words)


def emphasised(said: Line) -> Line:
    """A line in strong words."""
    weighed = Words | Own | Number | Extent | Length
    return tuple(replace(span, weight=Weight.STRONG) if isinstance(span, weighed) else span for span in said)


# Nouns in f that a kit may name; others take an s (chief, cuff, roof).
_VES = ("leaf", "half", "shelf", "loaf", "scarf", "calf", "wolf", "knife", "life")
_VOWELS = "aeiou"


def _several(noun: str) -> str:
    """An English noun, or the last of a few words, for several of it."""
    low = noun.lower()
    if low.endswith(_VES):
        return f"{noun.removesuffix('e').removesuffix('f')}ves"
    if low.endswith(("ss", "x", "z", "ch", "sh")):
        return f"{noun}es"
    if low.endswith("s"):
        return noun
    if low.endswith("y") and low[-2:-1] not in _VOWELS:
        return f"{noun[:-1]}ies"
    return f"{noun}s"
