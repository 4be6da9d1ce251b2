"""A line of text as data: words, and between them values that know what they are and where they come from.

A reader of content (a page, a web page, a tagged structure, the proof) decides how each kind of span looks.
Nothing reads a sentence back: whoever wants a number finds its span.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import field

from booklet.kit.finding import SpecPath
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.identity_enum import IdentityEnum
from booklet.measure.length import Size, Unit
from booklet.measure.typography import typographic
from booklet.measure.words import APPROXIMATELY, is_printable, print_length, print_size, ruler_length


class Weight(IdentityEnum):
    """How much words stand out; quiet ones, tips among them, are set in italics."""

    NORMAL = "normal"
    STRONG = "strong"
    QUIET = "quiet"


@dataclass(frozen=True)
class Words:
    """Words of the booklet's language."""

    text: str
    weight: Weight = Weight.NORMAL


@dataclass(frozen=True)
class Own:
    """The designer's own words: a title, a name, a tip; `source` is where the spec has them.

    `leads_to` is the anchor of what they name, where that does not follow from the source.
    """

    text: str
    source: SpecPath
    weight: Weight = Weight.NORMAL
    leads_to: str = field(default="", repr=False)


class Role(IdentityEnum):
    """What a measure is for: what a hand does with the number."""

    READING = "reading"
    SIZE = "size"
    WIDTH = "width"
    DISTANCE = "distance"
    GAP = "gap"
    BORDER = "border"
    RADIUS = "radius"
    HOLE = "hole"
    LENGTH = "length"
    SPACING = "spacing"
    SUPPLY = "supply"
    LIMIT = "limit"


class Precision(IdentityEnum):
    """How a measure is rounded in print.

    EXACT says it to the finest division of its unit, RULER as a plain ruler shows it, and ROUGH marks it as
    approximate by nature, as a reading on a printed register mark is.
    """

    EXACT = "exact"
    RULER = "ruler"
    ROUGH = "rough"


@dataclass(frozen=True)
class Length:
    """A length in `unit`; `source` is the value of the spec that it is or follows from.

    `with_unit` says whether print names the unit after the number.
    """

    value: Fraction
    unit: Unit
    role: Role
    source: SpecPath
    precision: Precision = Precision.EXACT
    with_unit: bool = False
    weight: Weight = Weight.NORMAL


@dataclass(frozen=True)
class Extent:
    """A size, width by height, in `unit`."""

    size: Size
    unit: Unit
    source: SpecPath
    precision: Precision = Precision.EXACT
    with_unit: bool = False
    weight: Weight = Weight.NORMAL


@dataclass(frozen=True)
class Number:
    """A count, or a share in per cent; `text` is the number as the language writes it."""

    value: Fraction
    text: str
    source: SpecPath
    weight: Weight = Weight.NORMAL


def whole(count: int) -> Number:
    """A count in figures that is stated nowhere: of what there is, or one of them in its order."""
    return Number(Fraction(count), str(count), ())


@dataclass(frozen=True)
class Degrees:
    """A tilt in degrees without its direction, as it is set by eye: to a tenth of a degree at most."""

    value: Fraction
    source: SpecPath


@dataclass(frozen=True)
class StepRef:
    """A step of the same layout, by its printed number: a ring."""

    layout: str
    number: int


@dataclass(frozen=True)
class SheetRef:
    """A sheet by the number that is printed large on its page; `sheet` is its id."""

    number: int
    sheet: str


@dataclass(frozen=True)
class CutRef:
    """A cut of the same sheet, by its number: a filled disc."""

    sheet: str
    number: int


@dataclass(frozen=True)
class PieceRef:
    """A piece by its letter, or by its whole label where its sheet is not the one in hand."""

    text: str
    label: str


@dataclass(frozen=True)
class PocketRef:
    """A pocket of the sorter, by its number or its name."""

    name: str


@dataclass(frozen=True)
class LineBreak:
    """A new line within the same paragraph."""


Span = (
    Words
    | Own
    | Length
    | Extent
    | Number
    | Degrees
    | StepRef
    | SheetRef
    | CutRef
    | PieceRef
    | PocketRef
    | LineBreak
)
Line = tuple[Span, ...]
# What may be given where a line is built: text stands for plain words of the language.
Part = Span | str | Line


def line(*parts: Part) -> Line:
    """A line from spans, lines and plain words, in order; empty words are left out."""
    return tuple(_flat(parts))


def joined(parts: Iterable[Part], joint: Part = " ") -> Line:
    """Lines one after another with a joint between them; those that are empty are left out."""
    spans: list[Part] = []
    for part in parts:
        if part:
            spans += [joint, part] if spans else [part]
    return line(*spans)


def _flat(parts: Iterable[Part]) -> Iterable[Span]:
    for part in parts:
        if isinstance(part, str):
            if part:
                yield Words(part)
        elif isinstance(part, tuple):
            yield from _flat(part)
        else:
            yield part


def strong(text: str) -> Words:
    """Words that stand out."""
    return Words(text, Weight.STRONG)


def quiet(text: str) -> Words:
    """Words that stand back."""
    return Words(text, Weight.QUIET)


def length_text(span: Length) -> str:
    """A length as print sets it, with a no-break space before its unit."""
    said = (ruler_length if span.precision is Precision.RULER else print_length)(span.value, span.unit)
    return _with_unit(_rough(said, span.precision, is_printable(span.value, span.unit)), span)


def extent_text(span: Extent) -> str:
    """A size as print sets it: `5¹⁄₂ × 7`."""
    is_exact = is_printable(span.size.width, span.unit)
    return _with_unit(_rough(print_size(span.size, span.unit), span.precision, is_exact), span)


def _rough(said: str, precision: Precision, is_exact: bool) -> str:
    """What is approximate by nature marked as such, unless it is for being rounded."""
    return f"{APPROXIMATELY}\u00a0{said}" if precision is Precision.ROUGH and is_exact else said


def _with_unit(said: str, span: Length | Extent) -> str:
    return f"{said}\u00a0{span.unit.value}" if span.with_unit else said


def own_text(span: Own) -> str:
    """The designer's words as print sets them."""
    return typographic(span.text)


def degrees_text(span: Degrees) -> str:
    """`6°`, or to the tenth that a hand may set: `≈ 6.3°`."""
    tenths = round(abs(span.value) * 10)
    whole, rest = divmod(tenths, 10)
    exact = "" if Fraction(tenths, 10) == abs(span.value) else APPROXIMATELY
    return f"{exact}{whole}{f'.{rest}' if rest else ''}°"


def plain_text(spans: Line) -> str:
    """A line as bare text, for an alternative text, a bookmark, a table for other programs."""
    return "".join(_plain(span) for span in spans)


def _plain(span: Span) -> str:
    match span:
        case Words() | Number() | PieceRef():
            return span.text
        case Own():
            return own_text(span)
        case Length():
            return length_text(span)
        case Extent():
            return extent_text(span)
        case Degrees():
            return degrees_text(span)
        case StepRef() | SheetRef() | CutRef():
            return str(span.number)
        case PocketRef():
            return span.name
        case LineBreak():
            return " "
