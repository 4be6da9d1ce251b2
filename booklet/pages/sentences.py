"""The sentences of a layout's assembly, one for each step, made from the spec and from where things lie."""

from __future__ import annotations

from dataclasses import dataclass

from booklet.drawing.piece_print import entry_of
from booklet.kit.kit import capitalised
from booklet.measure.words import print_size
from booklet.pages.cut_words import listed, number_word
from booklet.placing.model import Placed, PlacedLayout, PlacedStep
from booklet.placing.photos import PhotoSlot, WayUp, photo_slots
from booklet.placing.worked import WorkedKit


@dataclass(frozen=True)
class StepWords:
    """One step in words, no markup in any of them.

    `head` is what is taken, `labels` the labels of its pieces (none for what comes ready-cut), `size` its size
    in print or empty, `body` the sentences, `symbol` the step's verb.
    """

    number: int
    head: str
    labels: tuple[str, ...]
    size: str
    body: str
    tip: str | None
    optional: bool
    symbol: str


def step_words(worked: WorkedKit, layout: PlacedLayout) -> tuple[StepWords, ...]:
    """The words of every step of a layout, in order."""
    return tuple(_step(worked, layout, placed) for placed in layout.steps)


def _step(worked: WorkedKit, layout: PlacedLayout, placed: PlacedStep) -> StepWords:
    step = worked.kit.layouts[layout.index].steps[placed.number - 1]
    items = layout.of_step(placed.number)
    head = capitalised(items[0].name) if items else capitalised(placed.verb)
    size = print_size(items[0].upright_size, worked.kit.unit) if items else ""
    labels = tuple(label for item in items for label in _label(worked, layout, item))
    return StepWords(
        placed.number, head, labels, size, step.say or "", step.tip, placed.optional, placed.verb
    )


def _label(worked: WorkedKit, layout: PlacedLayout, item: Placed) -> tuple[str, ...]:
    entry = entry_of(item, layout, worked)
    return (entry.label,) if entry is not None and entry.label else ()


def photo_words(worked: WorkedKit, layout: PlacedLayout) -> str:
    """Which photographs a layout takes: `Two photographs of 4 × 6 upright, one of 3 × 4 lying.`"""
    slots = photo_slots(layout, worked.kit.unit)
    kinds: dict[tuple[str, str], list[PhotoSlot]] = {}
    for slot in slots:
        way = "" if slot.way_up is WayUp.SQUARE else f" {slot.way_up.value}"
        kinds.setdefault((print_size(slot.size, worked.kit.unit), way), []).append(slot)
    parts = [f"{number_word(len(alike))} of {size}{way}" for (size, way), alike in kinds.items()]
    if not parts:
        return ""
    first, _, rest = parts[0].partition(" ")
    noun = "photograph" if first == "one" else "photographs"
    return f"{listed([f'{first.capitalize()} {noun} {rest}', *parts[1:]])}."
