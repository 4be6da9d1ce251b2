"""What is in a document, a section or a block, however deep it stands."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import TypeGuard, TypeVar, get_args

from booklet.content.spans import Line, Own, Span, plain_text

_SPANS = get_args(Span)
T = TypeVar("T")


def everything(part: object) -> Iterator[object]:
    """A part and all parts of it, in reading order."""
    yield part
    if isinstance(part, tuple | list):
        for one in part:
            yield from everything(one)
    elif is_dataclass(part) and not isinstance(part, _SPANS):
        for field in fields(part):
            yield from everything(getattr(part, field.name))


def all_of(kind: type[T], part: object) -> list[T]:
    """All parts of a kind."""
    return [one for one in everything(part) if isinstance(one, kind)]


def said(line: Line) -> str:
    """A line as bare text with plain spaces."""
    return plain_text(line).replace("\u00a0", " ")


def lines_of(part: object) -> list[str]:
    """Every line as bare text, those of pictures' alternative texts among them."""
    return [said(one) for one in everything(part) if _is_line(one)]


def text_of(part: object) -> str:
    """All lines, one below another."""
    return "\n".join(lines_of(part))


def own_words(part: object) -> list[Own]:
    """All of the designer's words."""
    return all_of(Own, part)


def _is_line(part: object) -> TypeGuard[Line]:
    return isinstance(part, tuple) and bool(part) and isinstance(part[0], _SPANS)
