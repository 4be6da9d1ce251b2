"""Whether pieces come apart edge to edge, found out by trying every cut: slow, and plainly right."""

from __future__ import annotations

from functools import cache


@cache
def comes_apart(pieces: tuple[tuple[int, int, bool], ...], width: int, height: int) -> bool:
    """Try every whole reading in both directions, and every sharing of the pieces between the two sides."""
    if not pieces:
        return True
    if sum(w * h for w, h, _ in pieces) > width * height:
        return False
    if len(pieces) == 1:
        w, h, turns = pieces[0]
        return (w <= width and h <= height) or (turns and h <= width and w <= height)
    for chosen in range(1, 2 ** len(pieces) - 1):
        here = tuple(piece for i, piece in enumerate(pieces) if chosen >> i & 1)
        there = tuple(piece for i, piece in enumerate(pieces) if not chosen >> i & 1)
        for at in range(1, width):
            if comes_apart(here, at, height) and comes_apart(there, width - at, height):
                return True
        for at in range(1, height):
            if comes_apart(here, width, at) and comes_apart(there, width, height - at):
                return True
    return False
