"""From a place in the model back to the line that was typed, and to what the file calls that place."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from pathlib import PurePath

from booklet.kit.errors import Problem, place_text
from booklet.kit.finding import Finding, SpecPath
from booklet.kit.tree import Complaint, Keyed, Listing, Node, Scalar, Spot
from booklet.kit.words import shown
from booklet.measure.dataclass import dataclass

ARROW = " › "
# The keys that name an item of a list, in the order of preference.
_NAMING_KEYS = ("id", "name", "called")


@dataclass(frozen=True)
class Source:
    """A spec file as typed: its name for messages, its tree, its lines.

    `name` is the name as it was given on the command line, never made absolute; `file_name` is its last
    part, for what must not depend on where the file lies.  `typed` leads from places in the model that the
    loader wrote out to where the spec says them in short.
    """

    name: str
    tree: Node | None
    lines: tuple[str, ...]
    typed: Mapping[SpecPath, SpecPath] = field(default_factory=dict)

    @property
    def file_name(self) -> str:
        """The file's own name without its folder."""
        return PurePath(self.name).name

    @property
    def stem(self) -> str:
        """The file's own name without its ending, which the files made of it begin with."""
        return PurePath(self.name).stem

    def spot(self, path: SpecPath) -> Spot:
        """Line and column of the key or list item at `path`, or of its nearest ancestor in the file."""
        spot, node = Spot(1, 1), self.tree
        for step in as_typed(path, self.typed):
            found = _child(node, step)
            if found is None:
                break
            spot, node = found
        return spot

    def line(self, path: SpecPath) -> int:
        """The line, from 1, of the key or list item at `path`, or of its nearest ancestor in the file."""
        return self.spot(path).line

    def node(self, path: SpecPath) -> Node | None:
        """What stands at `path`, None where nothing does."""
        node = self.tree
        for step in as_typed(path, self.typed):
            if isinstance(node, Scalar):
                return node  # one word where a list or keys may stand: it is all that was typed
            found = _child(node, step)
            if found is None:
                return None
            node = found[1]
        return node

    def is_flow(self, path: SpecPath) -> bool:
        """Whether the list or keys at `path` are written in brackets or braces."""
        node = self.node(path)
        if node is None or node.spot.line > len(self.lines):
            return False
        return self.lines[node.spot.line - 1][node.spot.column - 1 :][:1] in ("[", "{")

    def words(self, path: SpecPath) -> str:
        """`path` in the file's own words: `sheets › shingle › cuts › 2 › at`.

        An item of a list is called by its id or name where it has one, else by its number from 1.
        """
        words: list[str] = []
        node = self.tree
        for step in as_typed(path, self.typed):
            if isinstance(node, Scalar):
                break
            found = _child(node, step)
            node = found[1] if found else None
            words.append(shown(step) if isinstance(step, str) else item_name(node) or str(step + 1))
        return ARROW.join(words)

    def problem(self, complaint: Complaint) -> Problem:
        """A complaint with its file, line and key."""
        spot = complaint.spot or self.spot(complaint.path)
        key = self.words(complaint.path)
        found, expected, nearest = complaint.found, complaint.expected, complaint.nearest
        return Problem(self.name, spot.line, spot.column, key, found, expected, nearest)


def as_typed(path: SpecPath, typed: Mapping[SpecPath, SpecPath]) -> SpecPath:
    """Where the spec says what stands at `path` in the model, which `typed` knows of all that was moved."""
    for length in range(len(path), 0, -1):
        if (found := typed.get(path[:length])) is not None:
            return (*found, *path[length:])
    return path


def describe(finding: Finding, source: Source) -> str:
    """A finding in one line: `harbour.yaml:41: warning reading-off-mark: found. Cure`."""
    place = place_text(source.name, source.line(finding.where))
    cure = finding.cure[:1].upper() + finding.cure[1:]
    return f"{place}: {finding.severity.value} {finding.id}: {_sentence(finding.found)} {cure}".rstrip()


def _sentence(text: str) -> str:
    return text if text.endswith((".", "!", "?")) else text + "."


def _child(node: Node | None, step: str | int) -> tuple[Spot, Node] | None:
    """The place and value of one key or item of a node."""
    if isinstance(node, Keyed):
        entry = node.entries.get(str(step))
        return (entry.spot, entry.value) if entry else None
    if isinstance(node, Listing) and isinstance(step, int) and 0 <= step < len(node.items):
        return node.items[step].spot, node.items[step]
    return None


def item_name(node: Node | None) -> str | None:
    """The id or name that an item of a list has."""
    if not isinstance(node, Keyed):
        return None
    for key in _NAMING_KEYS:
        entry = node.entries.get(key)
        if entry and isinstance(entry.value, Scalar) and entry.value.text:
            return shown(entry.value.text)
    return None
