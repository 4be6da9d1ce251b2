"""What is still in the hand: what later steps lay, and how large it is by now."""

from __future__ import annotations

from booklet.kit.steps import Column, Photo, Row, SeriesEntry, Step, Write
from booklet.kit.used import PieceUse, series
from booklet.measure.length import Size
from booklet.placing.state import PlacingState


def size_in_hand(state: PlacingState, use: PieceUse) -> Size | None:
    """The upright size of what a layout takes: as it is trimmed, else as it is snipped off or cut.

    None for an unknown piece, and for a part that is not snipped off yet.
    """
    if use.number in state.trimmed:
        return state.trimmed[use.number]
    if use.part_of is None:
        return state.pieces.size_of(use.name)
    alike = [other for other in state.uses if (other.part_of, other.name) == (use.part_of, use.name)]
    sizes, rank = state.part_sizes.get((use.part_of, use.name), []), alike.index(use)
    return sizes[rank] if rank < len(sizes) else None


def sizes_in_hand(state: PlacingState, name: str) -> tuple[Size, ...]:
    """The upright sizes, each once, of all that later steps take or lay under a name.

    None of what is not known: of a piece that nothing makes, of a photograph that fits its mat.
    """
    taken = (size_in_hand(state, use) for use in _still_to_take(state, name))
    things = (thing for step in state.layout.steps[state.number :] for thing in _things(step))
    said = (_said_size(thing) for thing in things if thing.called == name)
    return tuple(dict.fromkeys(size for size in (*taken, *said) if size is not None))


def trim_in_hand(state: PlacingState, name: str, size: Size) -> None:
    """Let all that later steps take under a name be of this size from now on."""
    state.trimmed.update((use.number, size) for use in _still_to_take(state, name))


def _still_to_take(state: PlacingState, name: str) -> list[PieceUse]:
    """What later steps take under a name: its own, or the one that a step or a thing in a row gives it."""
    later = (use for use in state.uses if use.step is not None and use.step >= state.number)
    return [use for use in later if name in (use.name, *_called(state, use))]


def _called(state: PlacingState, use: PieceUse) -> tuple[str | None, ...]:
    assert use.step is not None
    step = state.layout.steps[use.step]
    return (step.called, series(step)[use.entry].called) if isinstance(step, Row | Column) else (step.called,)


def _things(step: Step) -> tuple[Step | SeriesEntry, ...]:
    """What a step may lay under a name of its own."""
    return series(step) if isinstance(step, Row | Column) else (step,)


def _said_size(thing: Step | SeriesEntry) -> Size | None:
    """The size of a photograph or a writing space that is said where it is laid."""
    match thing:
        case Photo():
            return thing.photo
        case Write():
            return thing.write
        case SeriesEntry():
            return thing.size
        case _:
            return None
