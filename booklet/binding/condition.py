"""The characterised conditions of printing that a press file may name in the place of a profile."""

from __future__ import annotations

from enum import Enum

from booklet.binding.errors import ConditionError, InkLimitError
from booklet.kit.kit import PageFormat
from booklet.kit.words import any_of, nearest, quoted
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction

# Two solid inks: a black letter on a solid colour.  Four are all that a press has.
_LEAST_INK, _MOST_INK = 200, 400
# Where the names are registered (ISO 15930-4, 6.2, from public descriptions).
REGISTRY = "http://www.color.org"


class Condition(Enum):
    """A condition of printing by the name under which its characterisation data is registered."""

    FOGRA39 = "FOGRA39"
    FOGRA51 = "FOGRA51"
    FOGRA52 = "FOGRA52"
    TR_001 = "CGATS TR 001"
    TR_006 = "CGATS TR 006"
    CRPC6 = "CGATS21-2-CRPC6"


@dataclass(frozen=True)
class PressInks:
    """The condition that the four inks are mixed for, and the most of them in one place, in percent."""

    condition: Condition
    limit: Fraction


def usual_condition(page: PageFormat) -> Condition:
    """What print shops of the lands of a page format usually print to (common practice, no source)."""
    return Condition.FOGRA51 if page.is_metric else Condition.CRPC6


def read_condition(text: str) -> Condition:
    """The condition of a name, spaces and case aside.  Raises ConditionError for any other name."""
    if condition := next((one for one in Condition if _plain(one.value) == _plain(text)), None):
        return condition
    names = [one.value for one in Condition]
    near = nearest(text.upper(), names)
    hint = f" (nearest: {near})" if near else ""
    raise ConditionError(
        f"no print condition is registered as {quoted(text)}; a file without profile must name one that is: "
        f"{any_of(names)}{hint}"
    )


def check_ink_limit(percent: Fraction) -> None:
    """Refuse a limit of ink in percent that cannot be kept, or limits nothing.  Raises InkLimitError."""
    if not _LEAST_INK <= percent <= _MOST_INK:
        raise InkLimitError(
            f"an ink limit of {float(percent):g} %: a black letter on one solid colour is {_LEAST_INK} % "
            f"already, and four solid inks are {_MOST_INK} %; presses take 240 % on newsprint to 330 % on "
            "coated paper"
        )


def _plain(name: str) -> str:
    return "".join(name.split()).upper()
