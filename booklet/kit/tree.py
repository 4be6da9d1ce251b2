"""YAML text -> a tree of nodes that know their line, safely.

The tree keeps every scalar as the text that was typed: what it means is for the field that it fills to say.
So `010`, `1:30`, `2031-05-01`, `no` and the key `on` hold no surprise, and `6.10` stays `6.10`.  Only an
empty value, `null` and `~` mean nothing.  The tree is built of the library's events, which are checked first:
what it is built of nests no deeper than a kit, is no larger, and has no circle.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import takewhile
from typing import Any, NamedTuple

import yaml
from yaml import (
    AliasEvent,
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)

from booklet.kit.finding import SpecPath
from booklet.kit.syntax import explain_syntax
from booklet.kit.words import is_unseen, quoted, shown, typed_words
from booklet.measure.dataclass import dataclass
from booklet.measure.length import Unit, parse_length

# Generous for a kit: the largest real spec is a hundredth of this; a spec nests eight deep.
MAX_DEPTH = 32
MAX_NODES = 50_000

# The base loader leaves every scalar a string.
_LOADER: type[Any] = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
_NOTHING = {"", "~", "null", "Null", "NULL"}
# What `!!str` and the like say about a value that is read that way in any case.
_HARMLESS_TAGS = {"!", "tag:yaml.org,2002:str", "tag:yaml.org,2002:seq", "tag:yaml.org,2002:map"}

_STARTS = (SequenceStartEvent, MappingStartEvent)
_ENDS = (SequenceEndEvent, MappingEndEvent)
_VALUES = (ScalarEvent, *_STARTS, AliasEvent)


class Spot(NamedTuple):
    """A place in a file: line and column, both from 1."""

    line: int
    column: int


@dataclass(frozen=True)
class Scalar:
    """One value as typed; None where nothing was."""

    spot: Spot
    text: str | None


@dataclass(frozen=True)
class Listing:
    """A list."""

    spot: Spot
    items: tuple[Node, ...]


@dataclass(frozen=True)
class KeyedValue:
    """A key's place and its value."""

    spot: Spot
    value: Node


@dataclass(frozen=True)
class Keyed:
    """Keys with their values, in the order typed."""

    spot: Spot
    entries: dict[str, KeyedValue]


Node = Scalar | Listing | Keyed


@dataclass(frozen=True)
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


def read_tree(text: str, what: str) -> tuple[Node, list[Complaint]]:
    """The tree of a YAML text, and what is wrong with it that does not hide the rest (a key given twice).

    `what` says what the text is, for messages.

    Raises UnreadableError for text that is not YAML, nests too deep, is too large, or runs in a circle.
    """
    try:
        events = _node_events(yaml.parse(text, Loader=_LOADER))
    except yaml.MarkedYAMLError as error:
        raise UnreadableError(_syntax_complaint(error, text, what)) from None
    except yaml.YAMLError:
        raise UnreadableError(Complaint((), "text that is not YAML", f"{what} in YAML")) from None
    if not events:
        raise UnreadableError(Complaint((), "an empty file", what))
    builder = _Builder(events)
    return builder.node(()), builder.complaints


def plain(node: Node) -> Any:
    """A node as plain lists, dicts and strings."""
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Listing):
        return [plain(item) for item in node.items]
    return {key: plain(entry.value) for key, entry in node.entries.items()}


def _node_events(events: Iterator[Any]) -> list[Any]:
    """The events of a text's values, and the ends of its lists and keys, in order.

    Refuses what no tree is built of: too deep or too large, an alias before its anchor, two documents.
    """
    found: list[Any] = []
    opened: list[str | None] = []
    anchors: set[str | None] = set()
    values = documents = 0
    for event in events:
        kind = type(event)
        if kind in _ENDS:
            anchors.add(opened.pop())
        elif kind in _VALUES:
            values += 1
            if event.anchor:
                _check_anchor(event, anchors, opened)
            if kind in _STARTS:
                opened.append(event.anchor)
            elif event.anchor:
                anchors.add(event.anchor)
            _check_size(len(opened) - 1, values, (), event)
        else:
            documents += kind is DocumentStartEvent
            if documents > 1:
                raise _refusal((), "a second document (---)", "one document in one file", event)
            continue
        found.append(event)
    return found


def _check_anchor(event: Any, anchors: set[str | None], opened: Sequence[str | None]) -> None:
    """Refuse an alias inside or before what it stands for, and an anchor that there is."""
    if type(event) is AliasEvent:
        if event.anchor not in anchors:
            found = f"the alias *{shown(str(event.anchor))} inside or before what it stands for"
            raise _refusal((), found, "an anchor above it; words with * need quotes", event)
    elif event.anchor in anchors.union(opened):
        raise _refusal((), f"the anchor &{shown(event.anchor)} twice", "each anchor once", event)


def _check_size(depth: int, values: int, path: SpecPath, place: Any) -> None:
    if depth > MAX_DEPTH:
        raise _refusal(
            path[:4], "deeper nesting", f"at most {MAX_DEPTH} lists and keys inside one another", place
        )
    if values > MAX_NODES:
        expected = f"at most {MAX_NODES} values, aliases written out"
        raise _refusal((), "more values than a kit can have", expected, place)


class _Pair(NamedTuple):
    """A key and its value, with the events that they begin with."""

    key: str
    spot: Spot
    value: Node
    key_event: Any
    value_event: Any


class _Builder:
    """Builds a tree from events, counting as it goes: an alias counts as what it stands for."""

    def __init__(self, events: Sequence[Any]) -> None:
        self.complaints: list[Complaint] = []
        self.count = 0
        self._events = events
        self._at = 0
        self._anchored: dict[str, int] = {}

    def node(self, path: SpecPath) -> Node:
        """The node whose events come next."""
        if type(self._events[self._at]) is AliasEvent:
            return self._node_again(path)
        event = self._begin(path)
        spot = _spot(event)
        if type(event) is ScalarEvent:
            return Scalar(spot, self._text(event, path))
        if type(event) is MappingStartEvent:
            return Keyed(spot, self._entries(event, path))
        return Listing(spot, self._items(path))

    def _begin(self, path: SpecPath) -> Any:
        """The event that the next node begins with, counted."""
        event = self._events[self._at]
        if event.anchor:
            self._anchored[event.anchor] = self._at
        self._at += 1
        self.count += 1
        _check_size(len(path), self.count, path, event)
        if event.tag is not None and event.tag not in _HARMLESS_TAGS:
            expected = 'plain values; words that begin with "!" need quotes'
            self.complaints.append(Complaint(path, f"the tag {shown(event.tag)}", expected))
        return event

    def _node_again(self, path: SpecPath) -> Node:
        """What an alias stands for, built anew: it is at another path."""
        after, self._at = self._at + 1, self._anchored[self._events[self._at].anchor]
        node = self.node(path)
        self._at = after
        return node

    def _text(self, event: Any, path: SpecPath) -> str | None:
        text: str = event.value
        if not text.isprintable() and (unseen := next(filter(is_unseen, text), None)):
            found = f"the character U+{ord(unseen):04X}, which cannot be seen"
            self.complaints.append(Complaint(path, found, "text only", spot=_spot(event)))
        return None if not event.style and text in _NOTHING else text

    def _items(self, path: SpecPath) -> tuple[Node, ...]:
        items: list[Node] = []
        while type(self._events[self._at]) is not SequenceEndEvent:
            items.append(self.node((*path, len(items))))
        self._at += 1
        return tuple(items)

    def _entries(self, event: Any, path: SpecPath) -> dict[str, KeyedValue]:
        pairs = self._pairs(path)
        stray = _stray_words(pairs) if event.flow_style else {}
        entries: dict[str, KeyedValue] = {}
        for at, pair in enumerate(pairs):
            key, spot = pair.key, pair.spot
            if at in stray:
                if words := stray[at]:
                    self.complaints.append(_comma_complaint(path, words, spot))
            elif key in entries:
                found = f"the key {quoted(key)} twice, first in line {entries[key].spot.line}"
                self.complaints.append(Complaint(path, found, "each key once", spot=spot))
            elif key == "<<":
                found, expected = "a merge key (<<)", "the keys themselves, written out"
                self.complaints.append(Complaint(path, found, expected, spot=spot))
            else:
                entries[key] = KeyedValue(spot, pair.value)
        return entries

    def _pairs(self, path: SpecPath) -> list[_Pair]:
        pairs: list[_Pair] = []
        while type(key_event := self._next()) is not MappingEndEvent:
            key, spot = self._key(path)
            value_event = self._next()
            pairs.append(_Pair(key, spot, self.node((*path, key)), key_event, value_event))
        self._at += 1
        return pairs

    def _next(self) -> Any:
        """The event that the next node begins with, also where an alias stands for it."""
        event: Any = self._events[self._at]
        if type(event) is AliasEvent:
            event = self._events[self._anchored[str(event.anchor)]]
        return event

    def _key(self, path: SpecPath) -> tuple[str, Spot]:
        if type(self._events[self._at]) is ScalarEvent:  # no node need be made of it
            event = self._begin(path)
            return self._text(event, path) or "", _spot(event)
        node = self.node(path)
        if isinstance(node, Scalar):
            return node.text or "", node.spot
        found = "a list or keys where a key belongs"
        self.complaints.append(Complaint(path, found, "a word", spot=node.spot))
        return "", node.spot


@dataclass(frozen=True)
class _CutOffWords:
    """Words between braces that commas cut off from those before them, which a key holds."""

    key: str
    kept: str
    cut_off: tuple[str, ...]


def _stray_words(pairs: Sequence[_Pair]) -> dict[int, _CutOffWords | None]:
    """The keys without a colon that follow words between braces, by their places among the keys.

    Each has the words that it belongs to, or None where a key before it has them.  A length is not such a
    key: it is missed in a list, which is reported elsewhere.
    """
    found: dict[int, _CutOffWords | None] = {}
    for at, pair in enumerate(pairs):
        run = list(takewhile(_is_without_value, pairs[at + 1 :]))
        if not run or not pair.key or _is_without_value(pair) or not isinstance(pair.value, Scalar):
            continue
        words = tuple(str(stray.key_event.value) for stray in run)
        found |= dict.fromkeys(range(at + 1, at + 1 + len(run)))
        found[at + 1] = _CutOffWords(pair.key, pair.value_event.value, words)
    return found


def _is_without_value(pair: _Pair) -> bool:
    key, value = pair.key_event, pair.value_event
    if type(value) is not ScalarEvent or value.value or value.style:
        return False
    return type(key) is ScalarEvent and not _is_length(key.value)


def _is_length(text: str) -> bool:
    try:
        parse_length(text, Unit.INCH)
    except ValueError:
        return False
    return True


def _comma_complaint(path: SpecPath, words: _CutOffWords, spot: Spot) -> Complaint:
    whole = ", ".join((words.kept, *words.cut_off))
    found = f"{quoted(words.cut_off[0])} after a comma, and no value"
    expected = "words that hold a comma to stand in quotes, or a key with its value"
    nearest = f"{shown(words.key)}: {typed_words(whole)}"
    return Complaint((*path, words.key), found, expected, nearest, spot)


def _refusal(path: SpecPath, found: str, expected: str, place: Any) -> UnreadableError:
    return UnreadableError(Complaint(path, found, expected, spot=_spot(place)))


def _spot(place: Any) -> Spot:
    return Spot(place.start_mark.line + 1, place.start_mark.column + 1)


def _syntax_complaint(error: yaml.MarkedYAMLError, text: str, what: str) -> Complaint:
    mistake = explain_syntax(error, text.splitlines(), what)
    return Complaint(
        (), mistake.found, mistake.expected, mistake.nearest, Spot(mistake.line + 1, mistake.column + 1)
    )
