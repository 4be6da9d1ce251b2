"""The pockets of a sorter: numbers, or short names as printed on it (`A3`, `front`), and their order."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Annotated, Any

from booklet.kit.fields import as_tuple
from booklet.kit.rules import Before, Limits, ReadBy

_MOST, _LONGEST = 99, 8
A_POCKET = f"the number of a pocket from 1 to {_MOST}, or its name of at most {_LONGEST} letters"
# A name as it may be printed on a tab; it has a letter, so that it is no number.
_NAME = re.compile(rf"(?=.*[^\W\d_])[^\W_](?:[\w .+-]{{0,{_LONGEST - 2}}}[\w+])?")
_IN_PARTS = re.compile(r"(.*?)(\d*)")


def _pocket(value: Any) -> str:
    said = str(value).strip() if isinstance(value, str | int) and not isinstance(value, bool) else ""
    is_number = re.fullmatch("[0-9]{1,3}", said) is not None and 1 <= int(said) <= _MOST
    if not is_number and not _NAME.fullmatch(said):
        raise ValueError(A_POCKET)
    return str(int(said)) if is_number else said


Pocket = Annotated[
    str,
    ReadBy(_pocket, {"type": ["string", "integer"], "description": A_POCKET}),
]
Pockets = Annotated[tuple[Pocket, ...], Before(as_tuple), Limits(1, _MOST)]


def in_order(pockets: Iterable[str]) -> tuple[str, ...]:
    """Pockets in their natural order, each once.

    Those of one word are in the order of their numbers (A2, A10), words in the order in which they are said.
    """
    said = list(dict.fromkeys(pockets))
    words = [_word_and_number(pocket)[0] for pocket in said]

    def rank(pocket: str) -> tuple[int, int]:
        word, number = _word_and_number(pocket)
        return words.index(word), number

    return tuple(sorted(said, key=rank))


def nearest_pocket(pocket: str, known: Sequence[str]) -> str | None:
    """Of numbers the one that comes nearest to a number; None where none is known or either is a name."""
    numbers = [int(other) for other in known if other.isdigit()]
    if not pocket.isdigit() or not numbers:
        return None
    return str(min(numbers, key=lambda number: (abs(number - int(pocket)), number)))


def _word_and_number(pocket: str) -> tuple[str, int]:
    found = _IN_PARTS.fullmatch(pocket)
    assert found is not None
    return found[1], int(found[2] or 0)
