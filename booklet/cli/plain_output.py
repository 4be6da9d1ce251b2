"""What is told, without anything that a terminal would obey: names of files may hold what a spec may not."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from booklet.kit.words import is_unseen


@contextmanager
def plain_output() -> Iterator[None]:
    """Let both streams show by its code whatever nobody sees, and whatever letter a terminal lacks."""
    before = sys.stdout, sys.stderr
    for stream in before:
        if hasattr(stream, "reconfigure"):  # what is closed is None
            stream.reconfigure(errors="backslashreplace")
    sys.stdout, sys.stderr = (None if stream is None else _PlainStream(stream) for stream in before)
    try:
        yield
    finally:
        sys.stdout, sys.stderr = before


def as_opened(stream: Any) -> Any:
    """A stream as it was before, for what is meant to move the cursor."""
    return stream.opened if isinstance(stream, _PlainStream) else stream


class _PlainStream:
    """A stream of text that writes what nobody sees as its code; all else is that of the stream opened."""

    def __init__(self, opened: Any) -> None:
        self.opened = opened

    def write(self, text: str) -> int:
        """Write a text; how many letters it had."""
        self.opened.write(escaped(text))
        return len(text)

    def __getattr__(self, name: str) -> Any:
        return getattr(self.opened, name)


def escaped(text: str) -> str:
    """A text in which each sign that nobody sees stands as its code: `\\x1b`, `\\u202e`."""
    return "\n".join(line if line.isprintable() else "".join(map(_shown, line)) for line in text.split("\n"))


def _shown(letter: str) -> str:
    if not is_unseen(letter):
        return letter
    number = ord(letter)
    if number < 0x100:
        return f"\\x{number:02x}"
    return f"\\u{number:04x}" if number < 0x10000 else f"\\U{number:08x}"
