"""The lines about a place of the spec, as a browser asks for them."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from booklet.kit.kept_path import KeptItem, KeptPath, KeptStep, found_again
from booklet.view.shown import Shown

# So many lines are shown before and after the one that is meant.
_AROUND = 6


def read_place(text: str) -> KeptPath | None:
    """A place as it was told to a browser, `["layouts", [0, "first-page", 1], "title"]`; None for anything
    else.
    """
    try:
        said = json.loads(text)
    except (ValueError, RecursionError):
        return None
    steps = [_read_step(step) for step in said] if isinstance(said, list) else [None]
    read = tuple(step for step in steps if step is not None)
    return read if len(read) == len(steps) else None


def _read_step(said: object) -> KeptStep | None:
    match said:
        case str():
            return said
        case [int(index), str() | None as name, int(count)] if 0 <= index <= count:
            return KeptItem(index, name, count)
    return None


def place_lines(shown: Shown, kept: KeptPath) -> dict[str, Any] | None:
    """The lines about a place in the spec that the pages were made of, and whether the file has others by
    now; None before there is one.
    """
    if shown.source is None:
        return None
    line, key = found_again(kept, shown.source)
    has_passed = shown.source.lines != shown.lines
    return {"key": key, "hasPassed": has_passed, **_around(shown.source.lines, line)}


def file_lines(shown: Shown, line: int) -> dict[str, Any]:
    """The lines about a line of the file as it is."""
    return {"hasPassed": False, **_around(shown.lines, line)}


def _around(lines: Sequence[str], line: int) -> dict[str, Any]:
    first = max(1, line - _AROUND)
    return {"line": line, "first": first, "lines": list(lines[first - 1 : line + _AROUND])}
