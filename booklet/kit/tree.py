"""YAML text -> a tree of nodes that know their line, safely.

The tree keeps every scalar as the text that was typed: what it means is for the field that it fills to say.
So `010`, `1:30`, `2031-05-01`, `no` and the key `on` hold no surprise, and `6.10` stays `6.10`.  Only an
empty value, `null` and `~` mean nothing.  The stream of events is checked first, since the library composes
recursively in C: what it is given nests no deeper than a kit, is no larger, and has no circle.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import takewhile
from typing import Any

import yaml

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


@dataclass(frozen=True)
class Spot:
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
        _check_events(yaml.parse(text, Loader=_LOADER))
        root = yaml.compose(text, Loader=_LOADER)
    except yaml.MarkedYAMLError as error:
        raise UnreadableError(_syntax_complaint(error, text, what)) from None
    except yaml.YAMLError:
        raise UnreadableError(Complaint((), "text that is not YAML", f"{what} in YAML")) from None
    if root is None:
        raise UnreadableError(Complaint((), "an empty file", what))
    builder = _Builder()
    return builder.node(root, ()), builder.complaints


def plain(node: Node) -> Any:
    """A node as plain lists, dicts and strings."""
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Listing):
        return [plain(item) for item in node.items]
    return {key: plain(entry.value) for key, entry in node.entries.items()}


def _check_events(events: Iterator[Any]) -> None:
    """Refuse what must not be composed: too deep or too large, an alias before its anchor, two documents."""
    opened: list[str | None] = []
    anchors: set[str | None] = set()
    values = documents = 0
    for event in events:
        values += isinstance(event, yaml.NodeEvent)
        documents += isinstance(event, yaml.DocumentStartEvent)
        if isinstance(event, yaml.CollectionEndEvent):
            anchors.add(opened.pop())
        elif isinstance(event, yaml.AliasEvent):
            if event.anchor not in anchors:
                found = f"the alias *{shown(str(event.anchor))} inside or before what it stands for"
                raise _refusal((), found, "an anchor above it; words with * need quotes", event)
        elif isinstance(event, yaml.NodeEvent):
            if event.anchor and event.anchor in anchors.union(opened):
                raise _refusal((), f"the anchor &{shown(event.anchor)} twice", "each anchor once", event)
            if isinstance(event, yaml.CollectionStartEvent):
                opened.append(event.anchor)
            else:
                anchors.add(event.anchor)
        if documents > 1:
            raise _refusal((), "a second document (---)", "one document in one file", event)
        _check_size(len(opened) - 1, values, (), event)


def _check_size(depth: int, values: int, path: SpecPath, place: Any) -> None:
    if depth > MAX_DEPTH:
        raise _refusal(
            path[:4], "deeper nesting", f"at most {MAX_DEPTH} lists and keys inside one another", place
        )
    if values > MAX_NODES:
        expected = f"at most {MAX_NODES} values, aliases written out"
        raise _refusal((), "more values than a kit can have", expected, place)


class _Builder:
    """Builds a tree from composed nodes, counting as it goes: an alias counts as what it stands for."""

    def __init__(self) -> None:
        self.complaints: list[Complaint] = []
        self.count = 0

    def node(self, composed: Any, path: SpecPath) -> Node:
        self.count += 1
        _check_size(len(path), self.count, path, composed)
        if composed.tag not in _HARMLESS_TAGS:
            expected = 'plain values; words that begin with "!" need quotes'
            self.complaints.append(Complaint(path, f"the tag {shown(composed.tag)}", expected))
        if isinstance(composed, yaml.ScalarNode):
            self.complaints += _unseen_complaints(composed, path)
            is_nothing = not composed.style and composed.value in _NOTHING
            return Scalar(_spot(composed), None if is_nothing else composed.value)
        if isinstance(composed, yaml.SequenceNode):
            items = enumerate(composed.value)
            return Listing(_spot(composed), tuple(self.node(item, (*path, at)) for at, item in items))
        return Keyed(_spot(composed), self.entries(composed, path))

    def entries(self, composed: Any, path: SpecPath) -> dict[str, KeyedValue]:
        entries: dict[str, KeyedValue] = {}
        stray = _stray_words(composed) if composed.flow_style else {}
        for composed_key, composed_value in composed.value:
            key, spot = self.key(composed_key, path), _spot(composed_key)
            value = self.node(composed_value, (*path, key))
            if id(composed_key) in stray:
                if words := stray[id(composed_key)]:
                    self.complaints.append(_comma_complaint(path, words, spot))
            elif key in entries:
                found = f"the key {quoted(key)} twice, first in line {entries[key].spot.line}"
                self.complaints.append(Complaint(path, found, "each key once", spot=spot))
            elif key == "<<":
                found, expected = "a merge key (<<)", "the keys themselves, written out"
                self.complaints.append(Complaint(path, found, expected, spot=spot))
            else:
                entries[key] = KeyedValue(spot, value)
        return entries

    def key(self, composed: Any, path: SpecPath) -> str:
        node = self.node(composed, path)
        if isinstance(node, Scalar):
            return node.text or ""
        found = "a list or keys where a key belongs"
        self.complaints.append(Complaint(path, found, "a word", spot=node.spot))
        return ""


def _unseen_complaints(composed: Any, path: SpecPath) -> Iterator[Complaint]:
    """The first character that no one sees in a text, where an escape such as \\b can put one."""
    for letter in composed.value:
        if is_unseen(letter):
            found = f"the character U+{ord(letter):04X}, which cannot be seen"
            yield Complaint(path, found, "text only", spot=_spot(composed))
            return


@dataclass(frozen=True)
class _CutOffWords:
    """Words between braces that commas cut off from those before them, which a key holds."""

    key: str
    kept: str
    cut_off: tuple[str, ...]


def _stray_words(composed: Any) -> dict[int, _CutOffWords | None]:
    """The keys without a colon that follow words between braces, by the identity of their nodes.

    Each has the words that it belongs to, or None where a key before it has them.  A length is not such a
    key: it is missed in a list, which is reported elsewhere.
    """
    found: dict[int, _CutOffWords | None] = {}
    pairs = list(composed.value)
    for at, (key, value) in enumerate(pairs):
        run = list(takewhile(_is_without_value, pairs[at + 1 :]))
        if _is_without_value((key, value)) or not isinstance(value, yaml.ScalarNode) or not run:
            continue
        words = tuple(str(stray.value) for stray, _ in run)
        found |= {id(stray): None for stray, _ in run}
        found[id(run[0][0])] = _CutOffWords(str(key.value), value.value, words)
    return found


def _is_without_value(pair: tuple[Any, Any]) -> bool:
    key, value = pair
    if not isinstance(key, yaml.ScalarNode) or not isinstance(value, yaml.ScalarNode):
        return False
    return not value.value and not value.style and not _is_length(key.value)


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
