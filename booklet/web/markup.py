"""HTML as plain data: elements, words, and drawings; the writer escapes all words.

Whoever builds a page has no way to write markup as text, so no words of a spec can become any.  What goes in
as it is are drawings, which the SVG writer has written, and the style and the script that come with the
program.
"""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from typing import TypeAlias

from booklet.measure.dataclass import dataclass


@dataclass(frozen=True)
class Element:
    """An element with its attributes and what it holds."""

    tag: str
    attributes: tuple[tuple[str, str | None], ...] = ()
    children: tuple[Node, ...] = ()


@dataclass(frozen=True)
class Drawn:
    """Markup that the program itself has made: what a figure is drawn of, a style, a script."""

    markup: str


Node: TypeAlias = "str | Element | Drawn"
Child: TypeAlias = "Node | Iterable[Child] | None"
# A value is a text, a number, several words, True for an attribute without a value, None or False for none.
Value: TypeAlias = "str | int | bool | tuple[str, ...] | None"

_DASHES = str.maketrans("_", "-")
# Elements that hold nothing, and have no end (HTML Standard, void elements; from memory).
_VOID = {"br", "hr", "img", "input", "link", "meta"}


def element(tag: str, *children: Child, **attributes: Value) -> Element:
    """An element; `class_` stands for `class`, and an underscore for a dash: `aria_label`."""
    named = tuple(
        (name.rstrip("_").translate(_DASHES), None if value is True else _text(value))
        for name, value in attributes.items()
        if value is not None and value is not False
    )
    return Element(tag, named, tuple(_flat(children)))


def _text(value: str | int | tuple[str, ...]) -> str:
    return " ".join(value) if isinstance(value, tuple) else str(value)


def _flat(children: Iterable[Child]) -> Iterable[Node]:
    for child in children:
        if child is None:
            continue
        if isinstance(child, str | Element | Drawn):
            yield child
        else:
            yield from _flat(child)


def html_text(node: Node) -> str:
    """A node as HTML.  Nodes lie in each other as deep as blocks do, and no deeper."""
    parts: list[str] = []
    _write(node, parts)
    return "".join(parts)


def _write(node: Node, parts: list[str]) -> None:
    if isinstance(node, str):
        parts.append(escape(node, quote=False))
        return
    if isinstance(node, Drawn):
        parts.append(node.markup)
        return
    parts.append(f"<{node.tag}{''.join(map(_attribute, node.attributes))}>")
    for child in node.children:
        _write(child, parts)
    if node.tag not in _VOID:
        parts.append(f"</{node.tag}>")


def _attribute(named: tuple[str, str | None]) -> str:
    name, value = named
    return f" {name}" if value is None else f' {name}="{escape(value)}"'
