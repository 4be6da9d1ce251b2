"""Items that should lie on, or go under, another and lie beside it: a mistake in a distance."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from booklet.kit.finding import SpecPath, warning
from booklet.kit.words import quoted
from booklet.measure.dataclass import dataclass
from booklet.placing.model import ItemKind, Placed
from booklet.placing.state import PlacingState
from booklet.placing.visible import upright_bounds


@dataclass(frozen=True)
class NamedCover:
    """Something that a step names, at these keys, as lying above what it places, and its items."""

    name: str
    keys: SpecPath
    ids: tuple[int, ...]


def check_under(state: PlacingState, items: Sequence[Placed], overs: Iterable[NamedCover]) -> None:
    """Whether at least one of these items reaches under each thing that they are tucked under."""
    for over in overs:
        if _lies_apart(state, items, over.ids):
            found = f"{quoted(items[0].name)} does not reach under {quoted(over.name)}"
            cure = f"move it further in, or leave out that it lies under {quoted(over.name)}"
            state.report("lies-apart", found, cure, *over.keys, kind=warning)


def check_on(state: PlacingState, item: Placed, name: str, ids: Sequence[int]) -> None:
    """Whether an item lies at least partly on what it names; a photograph is checked against its mat."""
    if item.kind is not ItemKind.PHOTO and _lies_apart(state, [item], ids):
        found = f"{quoted(item.name)} lies beside {quoted(name)}, not on it"
        cure = "correct a distance, or place it by beside:, above: or below:"
        state.report("lies-apart", found, cure, "on", kind=warning)


def _lies_apart(state: PlacingState, items: Sequence[Placed], ids: Sequence[int]) -> bool:
    """Whether none of the items surely overlaps one of these.

    Tilted items count as the upright rectangles round them: a gap may be missed, none is reported wrongly.
    Where one is loose and another not, their places relative to each other are not settled yet.
    """
    others = [state.items[id] for id in ids]
    loose = {state.loose.get(item.id) for item in (*items, *others)}
    return len(loose) == 1 and not any(
        upright_bounds(item).overlaps(upright_bounds(other)) for item in items for other in others
    )
