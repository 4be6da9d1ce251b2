"""A place of a spec that is found again when its text has been typed on: by names where there are any."""

from __future__ import annotations

from booklet.kit.finding import SpecPath
from booklet.kit.source import Source, as_typed, item_name
from booklet.kit.tree import Listing, Node
from booklet.measure.dataclass import dataclass, replace


@dataclass(frozen=True)
class KeptItem:
    """An item of a list: its index, the id or name that it has, and how many there are in the list."""

    index: int
    name: str | None
    count: int


KeptStep = str | KeptItem
KeptPath = tuple[KeptStep, ...]


def kept_path(path: SpecPath, source: Source) -> KeptPath:
    """A place in the model, as the spec types it and so that later texts of it have it too."""
    text, typed = _as_text(source), as_typed(path, source.typed)
    return tuple(_kept_step(step, text.node(typed[:at])) for at, step in enumerate(typed))


def _kept_step(step: str | int, inside: Node | None) -> KeptStep:
    if isinstance(step, str):
        return step
    items = inside.items if isinstance(inside, Listing) else ()
    return KeptItem(step, item_name(items[step]) if step < len(items) else None, len(items))


def found_again(kept: KeptPath, source: Source) -> tuple[int, str]:
    """The line of a place that was kept, and what the spec calls it now; where it has gone, of what held it.

    An item goes by its name.  One that has none, or has been given another in a list as long as before, goes
    by its index.
    """
    text = _as_text(source)
    path: SpecPath = ()
    for step in kept:
        now = step if isinstance(step, str) else _index(step, text.node(path))
        if now is None or text.node((*path, now)) is None:
            break
        path = (*path, now)
    return text.line(path), text.words(path)


def _index(item: KeptItem, inside: Node | None) -> int | None:
    items = inside.items if isinstance(inside, Listing) else ()
    names = [item_name(each) for each in items]
    if item.name is None or names[item.index : item.index + 1] == [item.name]:
        return item.index
    if item.name in names:
        return names.index(item.name)
    return item.index if len(items) == item.count else None


def _as_text(source: Source) -> Source:
    """A source that is asked for places as they are typed."""
    return replace(source, typed={})
