"""Letters for pieces: A to Z, then AA, AB and so on."""

from __future__ import annotations


def letter(index: int) -> str:
    """The letter of the piece with this index, counted from 0."""
    letters = ""
    index += 1
    while index:
        index, digit = divmod(index - 1, 26)
        letters = chr(ord("A") + digit) + letters
    return letters
