"""A claim: a text that a page is to show, the numbers behind it, and where in the spec they come from."""

from __future__ import annotations

from enum import Enum

from booklet.content.spans import Role
from booklet.kit.finding import SpecPath
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.proof.numerals import numerals


class Kind(Enum):
    """What a text is, where it is no measure with a role of its own."""

    SIZE = "size"
    COUNT = "count"
    TILT = "tilt"
    CUT = "cut"
    STEP = "step"
    SHEET = "sheet"
    PIECE = "piece"
    POCKET = "pocket"
    PAGE = "page"
    SCALE = "scale"
    NUMERAL = "numeral of a scale"
    DIMENSION = "dimension"
    OWN = "the author's words"
    WORDS = "the booklet's words"


# What a page says of itself and what is the same in every booklet comes from no line of a spec.
_FROM_NO_SPEC = {Kind.PAGE, Kind.WORDS}


def section_of(key: str) -> str:
    """The anchor of the section with which a key begins."""
    return key.partition(" / ")[0]


@dataclass(frozen=True)
class Claim:
    """A text that a page is to show: a number with what it is for, a letter, a name, words.

    `key` tells it apart from all others and survives a rewording: the section, the cut or step, what it is,
    the place in the spec in the spec's own words.  `said` is the text as print sets it, `value` the exact
    numbers behind it (none for words), `source` the value of the spec that it is or follows from.
    What `is_in_order` is read in the order of its page's claims; the texts of a figure have no such order.
    """

    key: str
    kind: Role | Kind
    said: str
    page: int
    value: tuple[Fraction, ...] = ()
    unit: Unit | None = None
    source: SpecPath | None = None
    is_in_order: bool = True

    @property
    def has_number(self) -> bool:
        """Whether it is a number, has one in it, or is the letter of a piece: what a person checks."""
        return bool(self.value) or self.kind is Kind.PIECE or next(numerals(self.said), None) is not None

    @property
    def is_traced(self) -> bool:
        """Whether its number comes from a place in the spec, or from none by its nature."""
        return self.source is not None or self.kind in _FROM_NO_SPEC or not self.has_number
