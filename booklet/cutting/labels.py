"""What pieces are called: letters A to Z, then AA, AB and so on; and the one reserved word."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.kit.finding import Finding, SpecPath, error
from booklet.kit.sheet import SCRAP
from booklet.kit.words import quoted

# Pencilled beside a sheet's number, I and O would be read as 1 and 0.
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"


def letter(index: int) -> str:
    """The letter of the piece with this index, counted from 0; after Z follow AA, AB and so on."""
    letters = ""
    index += 1
    while index:
        index, digit = divmod(index - 1, len(_LETTERS))
        letters = _LETTERS[digit] + letters
    return letters


def label_letters(label: str) -> str:
    """A label's letters without its sheet's number; nothing for a sheet that stays whole."""
    return label.lstrip("0123456789")


def check_name(name: str, where: SpecPath) -> Iterator[Finding]:
    """Nothing that a layout may want can be called scrap."""
    if name == SCRAP:
        found = f"{quoted(SCRAP)} is what nothing uses, and cannot name anything else"
        yield error("name-reserved", where, found, "give it a name of its own")
