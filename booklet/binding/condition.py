"""The characterised conditions of printing that a press file may name in the place of a profile."""

from __future__ import annotations

from dataclasses import dataclass

from booklet.binding.errors import ConditionError
from booklet.kit.kit import PageFormat
from booklet.kit.words import any_of, nearest, quoted

# Where the names are registered (ISO 15930-4, 6.2, from public descriptions).
REGISTRY = "http://www.color.org"


@dataclass(frozen=True)
class PrintCondition:
    """A condition of printing: the name that it is registered by, and what it is, in words."""

    identifier: str
    meaning: str


# The names are those of the registry of characterisation data; what they mean, from memory.
CONDITIONS = (
    PrintCondition("FOGRA39", "Offset on coated paper, ISO 12647-2:2004, paper types 1 and 2"),
    PrintCondition("FOGRA51", "Offset on coated paper, ISO 12647-2:2013, print substrate 1"),
    PrintCondition("FOGRA52", "Offset on uncoated paper, ISO 12647-2:2013, print substrate 5"),
    PrintCondition("CGATS TR 001", "Web offset on coated publication paper, SWOP"),
    PrintCondition("CGATS TR 006", "Sheet-fed offset on coated paper, GRACoL 2006"),
    PrintCondition("CGATS21-2-CRPC6", "Offset on coated paper, CGATS 21-2, reference condition 6"),
)
_BY_NAME = {condition.identifier: condition for condition in CONDITIONS}
# What print shops of a land usually print to (common practice, no source).
_METRIC, _AMERICAN = "FOGRA51", "CGATS21-2-CRPC6"


def usual_condition(page: PageFormat) -> PrintCondition:
    """The condition of the lands that a page format belongs to, those of A4 or those of Letter."""
    return _BY_NAME[_METRIC if page.is_metric else _AMERICAN]


def read_condition(text: str) -> PrintCondition:
    """The condition of a name, spaces and case aside.  Raises ConditionError for any other name."""
    plain = {_plain(name): condition for name, condition in _BY_NAME.items()}
    if condition := plain.get(_plain(text)):
        return condition
    near = nearest(text.upper(), _BY_NAME)
    hint = f" (nearest: {near})" if near else ""
    raise ConditionError(
        f"no print condition is registered as {quoted(text)}: a file without a profile must name one that is; "
        f"expected {any_of(list(_BY_NAME))}{hint}"
    )


def _plain(name: str) -> str:
    return "".join(name.split()).upper()
