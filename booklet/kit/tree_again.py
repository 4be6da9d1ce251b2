"""The tree of a text in which one item of a list has been typed anew: that item is read, all else is kept.

The item is read alone, at its line.  That it means there what it means in the whole text follows from how it
stands: nothing of it lies as far left as its dash, it is a whole YAML text by itself, and nothing is named to
be used elsewhere.  What is not plainly so is left to those who read the whole text.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from booklet.kit.source import Source
from booklet.kit.tree import MAX_NODES, Keyed, KeyedValue, Listing, Node, Spot, UnreadableError, read_tree
from booklet.measure.cache import cached_on
from booklet.measure.dataclass import dataclass, replace

# The lists whose items are long: few lines are read again.
_LISTS = ("sheets", "layouts")
# What ends a line for Python, and is no end of a line of a spec but refused in it.
_ODD_LINE_END = re.compile("[\x0b\x0c\x1c-\x1e\x85\u2028\u2029]")
# An anchor or an alias (YAML 1.2.2, 6.9.2 and 7.1), a tag, a tab: or what may look like one.
_REFERENCE = re.compile(r"(?:^|[\s\[\]{},:?-])[&*!][^\s&]", re.MULTILINE)


@dataclass(frozen=True)
class ItemAgain:
    """A tree, and the one item in it that was read: its list's key, its index, its node."""

    tree: Keyed
    key: str
    index: int
    item: Node


@dataclass(frozen=True)
class _Lines:
    """Lines of the text before and of the text now, from one that both begin with, counted from 0."""

    start: int
    end: int
    end_now: int


def read_item_again(text: str, before: Source) -> ItemAgain | None:
    """The tree of a text, if it differs from one `before` within one item of a list; None where that is not
    plain, or the item cannot be read.
    """
    lines = tuple(text.splitlines())
    changed = _changed(before.lines, lines)
    # Of such a text no tree is too large.
    if changed is None or not isinstance(before.tree, Keyed) or len(text) > MAX_NODES:
        return None
    if _ODD_LINE_END.search(text):
        return None
    place = _item_of(before.tree, changed, len(before.lines))
    if place is None or _has_reference(before):
        return None
    key, index, whole = place
    listing = before.tree.entries[key].value
    assert isinstance(listing, Listing)
    then = _read_alone(before.lines[whole.start : whole.end], whole.start)
    typed = lines[whole.start : whole.end_now]
    now = None if _REFERENCE.search("\n".join(typed)) else _read_alone(typed, whole.start)
    if now is None or then != listing.items[index]:
        return None
    moved = whole.end_now - whole.end
    items = (
        *listing.items[:index],
        now,
        *(_moved(item, moved) for item in listing.items[index + 1 :]),
    )
    entries = {
        name: entry if entry.spot.line <= whole.end else _entry_moved(entry, moved)
        for name, entry in before.tree.entries.items()
    }
    entries[key] = KeyedValue(entries[key].spot, Listing(listing.spot, items))
    return ItemAgain(Keyed(before.tree.spot, entries), key, index, now)


@cached_on
def _has_reference(source: Source) -> bool:
    """Whether a text may name something to use it elsewhere."""
    return _REFERENCE.search("\n".join(source.lines)) is not None


def _changed(before: Sequence[str], now: Sequence[str]) -> _Lines | None:
    """The lines that differ; None where none do."""
    least = min(len(before), len(now))
    start = next((at for at in range(least) if before[at] != now[at]), least)
    alike = next((at for at in range(least - start) if before[-1 - at] != now[-1 - at]), least - start)
    if start == len(before) == len(now):
        return None
    return _Lines(start, len(before) - alike, len(now) - alike)


def _item_of(tree: Keyed, changed: _Lines, count: int) -> tuple[str, int, _Lines] | None:
    """The item in which all changed lines lie: its list's key, its index, and its lines."""
    begins = sorted(entry.spot.line - 1 for entry in tree.entries.values())
    for key in _LISTS:
        entry = tree.entries.get(key)
        if entry is None or not isinstance(entry.value, Listing) or not entry.value.items:
            continue
        end = next((line for line in begins if line > entry.spot.line - 1), count)
        starts = [item.spot.line - 1 for item in entry.value.items]
        for index, (start, after) in enumerate(zip(starts, [*starts[1:], end], strict=True)):
            if start <= changed.start and changed.end <= after and start < after:
                moved = changed.end_now - changed.end
                return key, index, _Lines(start, after, after + moved)
    return None


def _read_alone(lines: Sequence[str], start: int) -> Node | None:
    """The one item of these lines, as if so many stood above them; None unless it plainly is one."""
    if not lines or not _is_one_item(lines):
        return None
    try:
        root, complaints = read_tree("\n" * start + "\n".join(lines) + "\n", "")
    except UnreadableError:
        return None
    is_one = isinstance(root, Listing) and len(root.items) == 1 and not complaints
    return root.items[0] if is_one and isinstance(root, Listing) else None


def _is_one_item(lines: Sequence[str]) -> bool:
    """Whether the first line begins with a dash, and all others but comments stand farther to the right."""
    first = lines[0]
    indent = len(first) - len(first.lstrip(" "))
    if first[indent : indent + 2] != "- " or any("\t" in line for line in lines):
        return False
    for line in lines[1:]:
        words = line.lstrip(" ")
        if words and words[0] != "#" and len(line) - len(words) <= indent:
            return False
    return True


def _moved(node: Node, lines: int) -> Node:
    """A node as if so many more lines stood above it."""
    if lines == 0:
        return node
    spot = Spot(node.spot.line + lines, node.spot.column)
    if isinstance(node, Listing):
        return Listing(spot, tuple(_moved(item, lines) for item in node.items))
    if isinstance(node, Keyed):
        return Keyed(spot, {name: _entry_moved(entry, lines) for name, entry in node.entries.items()})
    return replace(node, spot=spot)


def _entry_moved(entry: KeyedValue, lines: int) -> KeyedValue:
    if lines == 0:
        return entry
    return KeyedValue(Spot(entry.spot.line + lines, entry.spot.column), _moved(entry.value, lines))
