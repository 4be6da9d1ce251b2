"""The types of a kit spec's values: lengths, sizes, colours, edges, turns.

A value is turned from the words that were typed into its exact type here, once; nothing after the loader
sees a string where a choice or a length is meant.  Keys are never guessed: an unknown one is an error, and
the loader names the nearest known one.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from enum import Enum
from numbers import Rational
from typing import TYPE_CHECKING, Annotated, Any

from booklet.kit.rules import Letters, ReadBy
from booklet.measure.exact import Fraction
from booklet.measure.identity_enum import IdentityEnum
from booklet.measure.length import A_LENGTH, A_SIZE, Size, Unit, parse_length, parse_size
from booklet.measure.words import FINEST, plain_length

if TYPE_CHECKING:
    from pydantic_core.core_schema import ValidationInfo

A_NUMBER = "a number such as 12 or 2 1/2"


class Edge(IdentityEnum):
    """An edge of a rectangle that is seen upright."""

    TOP = "top"
    RIGHT = "right"
    BOTTOM = "bottom"
    LEFT = "left"

    @property
    def opposite(self) -> Edge:
        """The edge that lies over against it."""
        return {"top": Edge.BOTTOM, "right": Edge.LEFT, "bottom": Edge.TOP, "left": Edge.RIGHT}[self.value]

    @property
    def is_upright(self) -> bool:
        """Whether it runs up and down: the left or the right one."""
        return self in (Edge.LEFT, Edge.RIGHT)


class Face(Enum):
    """One of the two faces of a sheet."""

    FRONT = "front"
    BACK = "back"


class Turn(Enum):
    """How a piece is turned in the hand, seen from above."""

    CLOCKWISE = "clockwise"
    ANTICLOCKWISE = "anticlockwise"
    HALF = "half"


def _unit(info: ValidationInfo) -> Unit:
    known: Any = info.context
    unit: Unit = known["unit"]
    return unit


# What is cut, laid or written on by hand is no longer than a table (common practice, no source): more is a
# typing error, and so is less than any trimmer or ruler shows.
_LONGEST = {Unit.INCH: Fraction(100), Unit.MILLIMETRE: Fraction(2540), Unit.CENTIMETRE: Fraction(254)}
# What comes on a roll, or is counted, may be this many times as long.
_ON_ROLL = 100
# A finer print looks like a plain tone, and a finer stencil is not cut (common practice, no source).
_FINEST_REPEAT = {
    Unit.INCH: Fraction(1, 16),
    Unit.MILLIMETRE: Fraction(3, 2),
    Unit.CENTIMETRE: Fraction(3, 20),
}


def is_exact(value: Any) -> bool:
    """Whether a value is a fraction already, of either library: given by a program, not typed."""
    return isinstance(value, Rational) and not isinstance(value, int)


def _length(value: Any, info: ValidationInfo) -> Fraction:
    if is_exact(value):
        return Fraction(value)
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise ValueError(A_LENGTH)
    return parse_length(value, _unit(info))


def _laid_length(value: Any, info: ValidationInfo) -> Fraction:
    """A length either way from an edge."""
    length = _length(value, info)
    if not is_exact(value):
        _refuse_long(abs(length), _LONGEST[_unit(info)], "a length", _unit(info))
    return length


def _positive_length(value: Any, info: ValidationInfo) -> Fraction:
    return _above_zero(value, info, 1)


def _border_length(value: Any, info: ValidationInfo) -> Fraction:
    """What is seen of a piece at an edge: 0 where the two edges are flush."""
    return _or_nothing(value, info, _positive_length)


def _stock_rest(value: Any, info: ValidationInfo) -> Fraction:
    """What is left of a roll or of a number: 0 where all is used."""
    return _or_nothing(value, info, _stock_length)


def _or_nothing(
    value: Any, info: ValidationInfo, read: Callable[[Any, ValidationInfo], Fraction]
) -> Fraction:
    if _length(value, info) == 0:
        return Fraction(0)
    try:
        return read(value, info)
    except ValueError as error:
        raise ValueError(f"0, or {error}") from None


def _stock_length(value: Any, info: ValidationInfo) -> Fraction:
    return _above_zero(value, info, _ON_ROLL)


def _above_zero(value: Any, info: ValidationInfo, times: int) -> Fraction:
    """A length that a hand can cut, or `times` the longest."""
    length = _length(value, info)
    if length <= 0:
        raise ValueError("a length above 0")
    if not is_exact(value):
        _refuse_short(length, FINEST, "a length", _unit(info))
        _refuse_long(length, times * _LONGEST[_unit(info)], "a length", _unit(info))
    return length


def _repeat_length(value: Any, info: ValidationInfo) -> Fraction:
    length = _positive_length(value, info)
    _refuse_short(length, _FINEST_REPEAT, "a repeat", _unit(info))
    return length


def _refuse_short(length: Fraction, finest: Mapping[Unit, Fraction], what: str, unit: Unit) -> None:
    if length < finest[unit]:
        raise ValueError(f"{what} of at least {plain_length(finest[unit], unit)} {unit.value}")


def _refuse_long(length: Fraction, longest: Fraction, what: str, unit: Unit) -> None:
    if length > longest:
        raise ValueError(f"{what} of at most {plain_length(longest, unit)} {unit.value}")


def _size(value: Any, info: ValidationInfo) -> Size:
    if isinstance(value, Size):
        return value
    if not isinstance(value, str):
        raise ValueError(A_SIZE)
    size, unit = parse_size(value, _unit(info)), _unit(info)
    _refuse_short(min(size.width, size.height), FINEST, "a size with sides", unit)
    _refuse_long(max(size.width, size.height), _LONGEST[unit], "a size with sides", unit)
    return size


def _repeat_size(value: Any, info: ValidationInfo) -> Size:
    size = _size(value, info)
    _refuse_short(min(size.width, size.height), _FINEST_REPEAT, "a repeat with sides", _unit(info))
    return size


def _amount(value: Any) -> Fraction:
    if is_exact(value):
        return Fraction(value)
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise ValueError(A_NUMBER)
    amount = parse_length(value, Unit.INCH)
    if amount <= 0:
        raise ValueError("a number above 0")
    return amount


def as_tuple(value: Any) -> Any:
    """A single word where a list may stand is a list of one."""
    return (value,) if isinstance(value, str | int | float) else value


# What an editor can tell of a typed length or size without reading it.
_TYPED_NUMBER = (
    r"([0-9]{1,6}(\s*-\s*|\s+)[0-9]{1,6}[/⁄][0-9]{1,6}|[0-9]{1,6}[/⁄][0-9]{1,6}"
    r"|([0-9]{1,6}\s*-?\s*)?[½⅓⅔¼¾⅛⅜⅝⅞]|[0-9]{1,6}(\.[0-9]{1,9})?|\.[0-9]{1,9})"
)
_TYPED_LENGTH = rf"\s*{_TYPED_NUMBER}\s*(in|inch|inches|\"|″|mm|cm)?\s*"

_SAID_OF_LENGTHS = (
    "6 1/4, 6-1/4, 6.25, 6 1/4 in, 108 mm, 10.8 cm; a bare number is in the kit's unit; no more than 100 in "
    "or 2540 mm, or 100 times as much of what comes on a roll"
)
_SAID_OF_SIZES = (
    "width x height: 5 1/2 x 7, 10 x 15 cm; sides of at least 1/64 in or 0.1 mm, at most 100 in or 2540 mm"
)
_SAID_OF_REPEATS = "what repeats is at least 1/16 in or 1.5 mm"


def _length_schema(said: str) -> dict[str, Any]:
    pattern = rf"^\s*[-−]?{_TYPED_LENGTH}$"
    return {"type": ["string", "number"], "pattern": pattern, "description": said}


def _size_schema(said: str) -> dict[str, Any]:
    return {"type": "string", "pattern": f"^{_TYPED_LENGTH}[x×]{_TYPED_LENGTH}$", "description": said}


_LENGTH_SCHEMA = _length_schema(_SAID_OF_LENGTHS)
_REPEAT_SCHEMA = _length_schema(f"{_SAID_OF_LENGTHS}; {_SAID_OF_REPEATS}")
_SIZE_SCHEMA = _size_schema(_SAID_OF_SIZES)
_REPEAT_SIZE_SCHEMA = _size_schema(f"{_SAID_OF_SIZES}; {_SAID_OF_REPEATS}")

LengthField = Annotated[Fraction, ReadBy(_laid_length, _LENGTH_SCHEMA)]
PositiveLength = Annotated[Fraction, ReadBy(_positive_length, _LENGTH_SCHEMA)]
BorderLength = Annotated[Fraction, ReadBy(_border_length, _LENGTH_SCHEMA)]
RepeatLength = Annotated[Fraction, ReadBy(_repeat_length, _REPEAT_SCHEMA)]
StockLength = Annotated[Fraction, ReadBy(_stock_length, _LENGTH_SCHEMA)]
StockRest = Annotated[Fraction, ReadBy(_stock_rest, _LENGTH_SCHEMA)]
SizeField = Annotated[Size, ReadBy(_size, _SIZE_SCHEMA)]
RepeatSize = Annotated[Size, ReadBy(_repeat_size, _REPEAT_SIZE_SCHEMA)]
Amount = Annotated[
    Fraction,
    ReadBy(_amount, {"type": ["string", "number"], "description": "how many: 12, 2 1/2"}),
]
WordsField = Annotated[str, Letters(1, 2000)]
# Titles stand above figures, in tables and in the list of contents, so they are short.
Title = Annotated[str, Letters(1, 200)]
# What stands on the covers leaves room for their pictures, on the smallest page too.
CoverWords = Annotated[str, Letters(1, 100)]
LONGEST_NAME = 60
Name = Annotated[str, Letters(1, LONGEST_NAME)]
HexColour = Annotated[str, Letters(form=r"^#[0-9a-fA-F]{6}$", lower=True)]
