"""Changes of a spec as keys, lists and values: each gives a changed copy."""

# ruff: noqa: ARG001 - every change takes the same arguments

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from hypothesis import strategies as st

from tests.fuzz.values import hostile, long_texts, values_near

Path = tuple[Any, ...]
_REPEATS = (2, 3, 5, 12, 40, 61, 99, 140, 201, 400)
_UNKNOWN = (3, 101, 2000)


def paths(tree: Any, path: Path = ()) -> Iterator[Path]:
    """The way to every value within a spec."""
    within = tree.items() if isinstance(tree, dict) else enumerate(tree) if isinstance(tree, list) else ()
    for key, value in within:
        yield (*path, key)
        yield from paths(value, (*path, key))


def value_at(tree: Any, path: Path) -> Any:
    """What stands at the end of a way."""
    for key in path:
        tree = tree[key]
    return tree


def with_value(tree: Any, path: Path, change: Callable[[Any], Any]) -> Any:
    """A copy in which the value at the end of a way is changed."""
    if not path:
        return change(tree)
    copy = dict(tree) if isinstance(tree, dict) else list(tree)
    copy[path[0]] = with_value(tree[path[0]], path[1:], change)
    return copy


def place_name(path: Path) -> str:
    """The last key of a way, which says what kind of value it leads to."""
    return next((key for key in reversed(path) if isinstance(key, str)), "")


class Vocabulary:
    """What specs hold: values by the key that they stand under, entries by the one that they are among."""

    def __init__(self, trees: list[Any]) -> None:
        self.values: dict[str, list[Any]] = {}
        self.entries: dict[str, list[tuple[str, Any]]] = {}
        for tree in trees:
            for path in [(), *paths(tree)]:
                value, name = value_at(tree, path), place_name(path)
                self.values.setdefault(name, []).append(value)
                if isinstance(value, dict):
                    self.entries.setdefault(name, []).extend(value.items())
        self.keys = sorted({key for entries in self.entries.values() for key, _ in entries})


@st.composite
def changed_tree(draw: st.DrawFn, tree: Any, words: Vocabulary) -> tuple[str, Any]:
    """A copy of a spec with one change, and what was changed."""
    path = draw(_ways(tree))
    if not path:
        return "nothing", tree
    value = value_at(tree, path)
    kinds: list[Callable[..., Any]] = [_drop, _swap_alike, _replace, _rename, _wrap]
    if isinstance(value, str):
        kinds += [_replace, _replace, _replace, _swap_alike, _lengthen]
    if isinstance(value, dict):
        kinds += [_graft, _graft, _graft, _unknown]
    if isinstance(value, list):
        kinds += [_repeat, _repeat, _more, _more, _shuffle]
    kind = draw(st.sampled_from(kinds))
    return f"{kind.__name__[1:]} {'.'.join(map(str, path))}", kind(draw, tree, path, words)


@st.composite
def _ways(draw: st.DrawFn, tree: Any) -> Path:
    """Any way, half the time one on which each turn is as likely as the others: so few steps drown no key."""
    if draw(st.booleans()):
        return draw(st.sampled_from([(), *paths(tree)][1:] or [()]))
    path: Path = ()
    while isinstance(tree, dict | list) and tree:
        keys = list(tree) if isinstance(tree, dict) else list(range(len(tree)))
        key = draw(st.sampled_from(keys))
        path, tree = (*path, key), tree[key]
        if draw(st.integers(0, 3)) == 0:
            break
    return path


def _drop(draw: st.DrawFn, tree: Any, path: Path, words: Vocabulary) -> Any:
    def without(holder: Any) -> Any:
        if isinstance(holder, dict):
            return {key: value for key, value in holder.items() if key != path[-1]}
        return [value for at, value in enumerate(holder) if at != path[-1]]

    return with_value(tree, path[:-1], without)


def _swap_alike(draw: st.DrawFn, tree: Any, path: Path, words: Vocabulary) -> Any:
    """Another value that stands under such a key somewhere: another reference, another list of steps."""
    other = draw(st.sampled_from(words.values.get(place_name(path), [""])))
    return with_value(tree, path, lambda _: other)


def _replace(draw: st.DrawFn, tree: Any, path: Path, words: Vocabulary) -> Any:
    value = value_at(tree, path)
    others: st.SearchStrategy[Any] = st.one_of(hostile, st.just([]), st.just({}))
    other = draw(values_near(value) if isinstance(value, str) else others)
    return with_value(tree, path, lambda _: other)


def _lengthen(draw: st.DrawFn, tree: Any, path: Path, words: Vocabulary) -> Any:
    other = draw(long_texts())
    return with_value(tree, path, lambda value: other if draw(st.booleans()) else f"{value} {other}")


def _rename(draw: st.DrawFn, tree: Any, path: Path, words: Vocabulary) -> Any:
    if not isinstance(path[-1], str):
        return tree
    name = draw(
        st.one_of(st.sampled_from(words.keys), hostile, st.just(path[-1] + "e"), st.just(path[-1][1:]))
    )

    def renamed(holder: Any) -> Any:
        return {name if key == path[-1] else key: value for key, value in holder.items()}

    return with_value(tree, path[:-1], renamed)


def _wrap(draw: st.DrawFn, tree: Any, path: Path, words: Vocabulary) -> Any:
    """A list or keys round a value; what is within a list in its place."""
    inside = draw(st.integers(0, 2))

    def wrapped(value: Any) -> Any:
        if inside == 0 and isinstance(value, list | dict) and value:
            return next(iter(value.values() if isinstance(value, dict) else value))
        return [value] if inside == 1 else {place_name(path): value}

    return with_value(tree, path, wrapped)


def _graft(draw: st.DrawFn, tree: Any, path: Path, words: Vocabulary) -> Any:
    """A key more, of those that stand among such keys somewhere."""
    key, value = draw(st.sampled_from(words.entries.get(place_name(path)) or [("x", "y")]))
    return with_value(tree, path, lambda keys: {**keys, key: value})


def _unknown(draw: st.DrawFn, tree: Any, path: Path, words: Vocabulary) -> Any:
    count = draw(st.sampled_from(_UNKNOWN))
    return with_value(tree, path, lambda keys: {**keys, **{f"key {at}": "x" for at in range(count)}})


def _repeat(draw: st.DrawFn, tree: Any, path: Path, words: Vocabulary) -> Any:
    """An item of a list many times; if it has an id or a name, each a name of its own half of the time."""
    items = value_at(tree, path)
    if not items:
        return tree
    item: Any = draw(st.sampled_from(items))
    count = draw(st.sampled_from(_REPEATS))
    naming = [key for key in ("id", "name", "called") if isinstance(item, dict) and key in item]
    has_own_names = draw(st.booleans())
    if naming and has_own_names:
        more = [{**item, **{key: f"{item[key]} {at}" for key in naming}} for at in range(count)]
    else:
        more = [item] * count
    return with_value(tree, path, lambda value: [*value, *more])


def _more(draw: st.DrawFn, tree: Any, path: Path, words: Vocabulary) -> Any:
    """Items more, of those that stand in such a list somewhere."""
    lists = [value for value in words.values.get(place_name(path), []) if isinstance(value, list) and value]
    if not lists:
        return tree
    others = draw(st.lists(st.sampled_from(lists).flatmap(st.sampled_from), min_size=1, max_size=4))
    at = draw(st.integers(0, len(value_at(tree, path))))
    return with_value(tree, path, lambda items: [*items[:at], *others, *items[at:]])


def _shuffle(draw: st.DrawFn, tree: Any, path: Path, words: Vocabulary) -> Any:
    order = draw(st.permutations(range(len(value_at(tree, path)))))
    return with_value(tree, path, lambda items: [items[at] for at in order])
