"""The sentences of a layout's assembly, one for each step, made from the spec and from where things lie.

A person follows them with only this page: what lies there already is called by the number of its step, as in
the figure beside.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from booklet.kit.steps import (
    Add,
    Column,
    Do,
    Ink,
    OtherHalf,
    Photo,
    Place,
    PlaceGroup,
    Punch,
    Raise,
    Ribbon,
    Round,
    Row,
    Snip,
    Stencil,
    Step,
    Stitch,
    Tape,
    TrimRound,
    Write,
)
from booklet.measure.exact import Fraction, round_to
from booklet.pages.cut_words import number_word
from booklet.pages.laid import Laid, finished, laid_before, said
from booklet.pages.laying_words import (
    tell_group,
    tell_other_half,
    tell_photo,
    tell_place,
    tell_series,
    tell_write,
)
from booklet.pages.photo_size import photo_size
from booklet.pages.told import Told, capital
from booklet.pages.work_words import unseen_words
from booklet.pages.working_words import (
    tell_add,
    tell_do,
    tell_ink,
    tell_punch,
    tell_raise,
    tell_ribbon,
    tell_round,
    tell_snip,
    tell_stencil,
    tell_tape,
    tell_trim_round,
)
from booklet.placing.model import PlacedLayout
from booklet.placing.photos import PhotoSlot, WayUp, photo_slots
from booklet.placing.resolved import ResolvedKit

_TELLERS: dict[type[Step], Callable[[Laid, Any], Told]] = {
    Place: tell_place,
    Row: tell_series,
    Column: tell_series,
    PlaceGroup: tell_group,
    OtherHalf: tell_other_half,
    Photo: tell_photo,
    Write: tell_write,
    Snip: tell_snip,
    TrimRound: tell_trim_round,
    Round: tell_round,
    Punch: tell_punch,
    Ink: tell_ink,
    Stencil: tell_stencil,
    Ribbon: tell_ribbon,
    Tape: tell_tape,
    Raise: tell_raise,
    Add: tell_add,
    Do: tell_do,
    Stitch: lambda _laid, _step: Told("Stitches", "Stitch them together."),
}

# What is seen of a photograph is said in steps of so many per cent.
_SEEN_STEP = Fraction(5)


@dataclass(frozen=True)
class StepWords:
    """One step in words, no markup in any of them.

    `head` is what is taken, `labels` the labels of its pieces (none for what comes ready-cut), `size` its
    size in print or empty, `body` the sentences, `symbol` the step's verb.  `references` are the places
    (start and end) of the numbers in the body that are those of other steps; `others` are the numbers of
    further steps that the same words tell.
    """

    number: int
    head: str
    labels: tuple[str, ...]
    size: str
    body: str
    tip: str | None
    optional: bool
    symbol: str
    references: tuple[tuple[int, int], ...] = ()
    others: tuple[int, ...] = ()

    @property
    def numbers(self) -> tuple[int, ...]:
        """The numbers of all the steps that these words tell."""
        return (self.number, *self.others)


def step_words(resolved: ResolvedKit, layout: PlacedLayout) -> tuple[StepWords, ...]:
    """The words of every step of a layout, in order."""
    return tuple(_words(laid_before(resolved, layout, placed.number)) for placed in layout.steps)


def _words(laid: Laid) -> StepWords:
    step = laid.spec.steps[laid.number - 1]
    told = _TELLERS[type(step)](laid, step)
    body, references = finished(_text(laid, step, told))
    head, verb = capital(said(told.head)), laid.placed.verb
    return StepWords(
        laid.number, head, told.labels, told.size, body, step.tip, _is_optional(laid), verb, references
    )


def _is_optional(laid: Laid) -> bool:
    """Whether a step may be left out, also because the facing page may have left out what it goes on with."""
    return laid.placed.optional or any(item.optional for item in laid.layout.of_step(laid.number))


def _text(laid: Laid, step: Step, told: Told) -> str:
    """The sentences in order, the designer's own words after the one that says where: no measure is lost."""
    own = said(step.say) if step.say else ""
    parts = [*told.before, told.order, own, *told.after, *unseen_words(laid)]
    text = " ".join(part for part in parts if part)
    return f"If you like: {text[:1].lower()}{text[1:]}" if _is_optional(laid) else text


def photo_words(resolved: ResolvedKit, layout: PlacedLayout) -> str:
    """Which photographs a layout takes: `Two photographs of 4 × 6 upright, one of 3 × 4 lying.`

    Of what is partly covered it says about how much is seen.
    """
    kinds: dict[str, list[PhotoSlot]] = {}
    for slot in photo_slots(layout, resolved.kit.unit):
        way = "" if slot.way_up is WayUp.SQUARE else f" {slot.way_up.value}"
        kind = f"{photo_size(slot.size, resolved.kit.unit)}{way}{_seen(slot)}"
        kinds.setdefault(kind, []).append(slot)
    if not kinds:
        return ""
    parts = [f"{number_word(len(alike))} of {kind}" for kind, alike in kinds.items()]
    count, _, rest = parts[0].partition(" ")
    noun = "photograph" if count == "one" else "photographs"
    return f"{', '.join([f'{capital(count)} {noun} {rest}', *parts[1:]])}."


def _seen(slot: PhotoSlot) -> str:
    """` (about 60 % is seen)`; nothing where next to nothing is covered."""
    seen = round_to(slot.visible * 100, _SEEN_STEP)
    return f" (about {seen}\u00a0% is seen)" if seen < 100 else ""
