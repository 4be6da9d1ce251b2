"""YAML text -> a tree of nodes that know their line, safely.

The tree keeps every scalar as the text that was typed: what it means is for the field that it fills to say.
So `010`, `1:30`, `2031-05-01`, `no` and the key `on` hold no surprise, and `6.10` stays `6.10`.  Only an
empty value, `null` and `~` mean nothing.  It is built from YAML's flat stream of events rather than by the
library's own recursive composer, so that depth, size and aliases are limited while reading, not afterwards.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import yaml

from booklet.kit.finding import SpecPath
from booklet.kit.syntax import explain_syntax
from booklet.kit.words import quoted, shown

# Generous for a kit: the largest real spec is a hundredth of this; a spec nests eight deep.
MAX_DEPTH = 32
MAX_NODES = 50_000

_NOTHING = {"", "~", "null", "Null", "NULL"}
# What `!!str` and the like say about a value that is read that way in any case.
_HARMLESS_TAGS = {None, "!", "tag:yaml.org,2002:str", "tag:yaml.org,2002:seq", "tag:yaml.org,2002:map"}


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in a file: line and column, both from 1."""

    line: int
    column: int


@dataclass(frozen=True, slots=True)
class Scalar:
    """One value as typed; None where nothing was."""

    spot: Spot
    text: str | None


@dataclass(frozen=True, slots=True)
class Listing:
    """A list."""

    spot: Spot
    items: tuple[Node, ...]


@dataclass(frozen=True, slots=True)
class Entry:
    """A key's place and its value."""

    spot: Spot
    value: Node


@dataclass(frozen=True, slots=True)
class Keyed:
    """Keys with their values, in the order typed."""

    spot: Spot
    entries: dict[str, Entry]


Node = Scalar | Listing | Keyed


@dataclass(frozen=True, slots=True)
class Complaint:
    """Something wrong at `path`, before it is known what the file calls that place."""

    path: SpecPath
    found: str
    expected: str
    nearest: str | None = None
    spot: Spot | None = None


class UnreadableError(Exception):
    """The text is no YAML that a tree can be built from; carries its one complaint."""

    def __init__(self, complaint: Complaint) -> None:
        self.complaint = complaint
        super().__init__(complaint.found)


def read_tree(text: str) -> tuple[Node, list[Complaint]]:
    """The tree of a YAML text, and what is wrong with it that does not hide the rest (a key given twice).

    Raises UnreadableError for text that is not YAML, nests too deep, is too large, or runs in a circle.
    """
    loader: type[Any] = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    try:
        return _Reader(yaml.parse(text, Loader=loader)).document()
    except yaml.MarkedYAMLError as error:
        raise UnreadableError(_syntax_complaint(error, text)) from None
    except yaml.YAMLError:
        raise UnreadableError(Complaint((), "text that is not YAML", "a kit spec in YAML")) from None


def plain(node: Node) -> Any:
    """A node as plain lists, dicts and strings."""
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Listing):
        return [plain(item) for item in node.items]
    return {key: plain(entry.value) for key, entry in node.entries.items()}


@dataclass(frozen=True, slots=True)
class _Anchored:
    """What an alias stands for, how many values that is when written out, and how deep they nest."""

    node: Node
    count: int
    height: int


class _Reader:
    """Builds one document's tree from YAML's events, counting as it goes."""

    def __init__(self, events: Iterator[Any]) -> None:
        self.events = events
        self.complaints: list[Complaint] = []
        self.count = 0
        self.anchors: dict[str, _Anchored] = {}

    def document(self) -> tuple[Node, list[Complaint]]:
        next(self.events)  # the start of the stream
        event = next(self.events)
        if isinstance(event, yaml.StreamEndEvent):
            raise UnreadableError(Complaint((), "an empty file", "a kit spec"))
        tree = self.node(next(self.events), ())
        next(self.events)  # the end of the document
        event = next(self.events)
        if not isinstance(event, yaml.StreamEndEvent):
            spot = _spot(event)
            raise UnreadableError(Complaint((), "a second document (---)", "one kit in one file", spot=spot))
        return tree, self.complaints

    def node(self, event: Any, path: SpecPath) -> Node:
        self.counted(1, event)
        self.not_too_deep(0, event, path)
        if isinstance(event, yaml.AliasEvent):
            return self.alias(event, path)
        before = self.count
        if event.tag not in _HARMLESS_TAGS:
            expected = 'plain values; words that begin with "!" need quotes'
            self.complaints.append(Complaint(path, f"the tag {shown(event.tag)}", expected))
        node = self.fresh(event, path)
        if event.anchor is not None:
            self.anchors[event.anchor] = _Anchored(node, self.count - before + 1, _height(node))
        return node

    def fresh(self, event: Any, path: SpecPath) -> Node:
        if isinstance(event, yaml.ScalarEvent):
            is_nothing = event.implicit[0] and event.style in (None, "") and event.value in _NOTHING
            return Scalar(_spot(event), None if is_nothing else event.value)
        if isinstance(event, yaml.SequenceStartEvent):
            return Listing(_spot(event), tuple(self.items(path)))
        return Keyed(_spot(event), self.entries(path))

    def items(self, path: SpecPath) -> Iterator[Node]:
        index = 0
        while not isinstance(event := next(self.events), yaml.SequenceEndEvent):
            yield self.node(event, (*path, index))
            index += 1

    def entries(self, path: SpecPath) -> dict[str, Entry]:
        entries: dict[str, Entry] = {}
        while not isinstance(event := next(self.events), yaml.MappingEndEvent):
            key, spot = self.key(event, path), _spot(event)
            value = self.node(next(self.events), (*path, key))
            if key in entries:
                found = f"the key {quoted(key)} twice, first in line {entries[key].spot.line}"
                self.complain(path, found, "each key once", event)
            elif key == "<<":
                self.complain(path, "a merge key (<<)", "the keys themselves, written out", event)
            else:
                entries[key] = Entry(spot, value)
        return entries

    def key(self, event: Any, path: SpecPath) -> str:
        node = self.node(event, path)
        if isinstance(node, Scalar):
            return node.text or ""
        self.complain(path, "a list or keys where a key belongs", "a word", event)
        return ""

    def alias(self, event: Any, path: SpecPath) -> Node:
        if event.anchor not in self.anchors:
            found = f"the alias *{shown(event.anchor)} inside or before what it stands for"
            raise UnreadableError(
                Complaint(path, found, "an anchor above it; words with * need quotes", spot=_spot(event))
            )
        anchored = self.anchors[event.anchor]
        self.counted(anchored.count, event)
        self.not_too_deep(anchored.height, event, path)
        return anchored.node

    def not_too_deep(self, height: int, event: Any, path: SpecPath) -> None:
        if len(path) + height > MAX_DEPTH:
            expected = f"at most {MAX_DEPTH} lists and keys inside one another"
            raise UnreadableError(Complaint(path[:4], "deeper nesting", expected, spot=_spot(event)))

    def counted(self, more: int, event: Any) -> None:
        self.count += more
        if self.count > MAX_NODES:
            expected = f"at most {MAX_NODES} values, aliases written out"
            raise UnreadableError(
                Complaint((), "more values than a kit can have", expected, spot=_spot(event))
            )

    def complain(self, path: SpecPath, found: str, expected: str, event: Any) -> None:
        self.complaints.append(Complaint(path, found, expected, spot=_spot(event)))


def _spot(event: Any) -> Spot:
    return Spot(event.start_mark.line + 1, event.start_mark.column + 1)


def _height(node: Node) -> int:
    """How many levels of lists and keys a node is."""
    if isinstance(node, Scalar):
        return 0
    values = node.items if isinstance(node, Listing) else [entry.value for entry in node.entries.values()]
    return 1 + max(map(_height, values), default=0)


def _syntax_complaint(error: yaml.MarkedYAMLError, text: str) -> Complaint:
    slip = explain_syntax(error, text.splitlines())
    return Complaint((), slip.found, slip.expected, spot=Spot(slip.line + 1, slip.column + 1))
