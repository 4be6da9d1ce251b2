"""Typed text, made safe to repeat in a message."""

from __future__ import annotations

_LONGEST = 60


def shown(text: str) -> str:
    """A typed text for a message: one line, shortened, nothing in it that could move a terminal's cursor."""
    line = " ".join(text[: 4 * _LONGEST].split())
    safe = "".join(letter if letter.isprintable() else "\ufffd" for letter in line)
    return safe if len(safe) <= _LONGEST else safe[: _LONGEST - 1].rstrip() + "…"


def quoted(text: str) -> str:
    """A typed text in quotes, where its beginning and end would not be plain."""
    return f'"{shown(text)}"'


def any_of(choices: list[str]) -> str:
    """`top, right, bottom or left`."""
    return "".join(choices) if len(choices) < 2 else f"{', '.join(choices[:-1])} or {choices[-1]}"
