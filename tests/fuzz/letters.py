"""Changes of a spec as lines and letters: broken YAML, lines doubled, dropped and exchanged."""

# ruff: noqa: ARG001 - every change takes the same arguments

from __future__ import annotations

from collections.abc import Callable

from hypothesis import strategies as st

from tests.fuzz.values import LETTERS, MARKUP

_SIGNS = tuple("{}[],:#&*!|>'\"%@`?-\t\n ~<=") + LETTERS + MARKUP


@st.composite
def changed_text(draw: st.DrawFn, text: str) -> tuple[str, str]:
    """A text with one change, and what was changed."""
    lines = text.splitlines(keepends=True)
    if not lines:
        return "nothing", text
    kinds: tuple[Callable[..., str], ...] = (
        _double,
        _delete,
        _exchange,
        _indent,
        _insert,
        _cut,
        _remove,
        _end,
    )
    kind = draw(st.sampled_from(kinds))
    at = draw(st.integers(0, len(lines) - 1))
    return f"{kind.__name__[1:]} line {at + 1}", kind(draw, lines, at)


def _double(draw: st.DrawFn, lines: list[str], at: int) -> str:
    return "".join([*lines[: at + 1], *lines[at:]])


def _delete(draw: st.DrawFn, lines: list[str], at: int) -> str:
    return "".join([*lines[:at], *lines[at + draw(st.integers(1, 5)) :]])


def _exchange(draw: st.DrawFn, lines: list[str], at: int) -> str:
    other = draw(st.integers(0, len(lines) - 1))
    changed = list(lines)
    changed[at], changed[other] = lines[other], lines[at]
    return "".join(changed)


def _indent(draw: st.DrawFn, lines: list[str], at: int) -> str:
    by = draw(st.sampled_from((" ", "  ", "    ", "\t", "- ", "")))
    return "".join([*lines[:at], by + lines[at].lstrip(), *lines[at + 1 :]])


def _insert(draw: st.DrawFn, lines: list[str], at: int) -> str:
    column = draw(st.integers(0, len(lines[at])))
    sign = draw(st.sampled_from(_SIGNS))
    return "".join([*lines[:at], lines[at][:column] + sign + lines[at][column:], *lines[at + 1 :]])


def _cut(draw: st.DrawFn, lines: list[str], at: int) -> str:
    """From somewhere in a line to somewhere further on."""
    before = "".join(lines[:at])
    rest = "".join(lines[at:])
    start, length = draw(st.integers(0, len(lines[at]))), draw(st.integers(1, 60))
    return before + rest[:start] + rest[start + length :]


def _remove(draw: st.DrawFn, lines: list[str], at: int) -> str:
    """One sign of YAML in a line."""
    signs = [place for place, letter in enumerate(lines[at]) if letter in "{}[],:#'\"-"]
    if not signs:
        return "".join(lines)
    place = draw(st.sampled_from(signs))
    return "".join([*lines[:at], lines[at][:place] + lines[at][place + 1 :], *lines[at + 1 :]])


def _end(draw: st.DrawFn, lines: list[str], at: int) -> str:
    """A file that was not saved whole."""
    return "".join(lines[:at]) + lines[at][: draw(st.integers(0, len(lines[at])))]
