"""What every step's teller is given and gives back, and the parts that steps have in common."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TypeVar

from booklet.content.assembly.holds import HeldThing, lying_of
from booklet.content.assembly.lying import Foam, Handling, Lying, Owner, Page, Thing
from booklet.content.assembly.printed import Member
from booklet.content.assembly.things import (
    LayoutContext,
    entries_of,
    item_name,
    labels_of,
    thing_of,
)
from booklet.content.photos import photo_extent
from booklet.content.spans import Length, Line, Number, Own, PieceRef, Role
from booklet.content.words.english.assembly import EnglishAssembly
from booklet.content.words.language import Language
from booklet.kit.finding import SpecPath
from booklet.kit.steps import Step
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction
from booklet.measure.length import Size
from booklet.placing.details import Detail, Held, Target
from booklet.placing.model import ItemKind, Placed, PlacedStep
from booklet.placing.state import BASE_ID

D = TypeVar("D", bound=Detail)
S = TypeVar("S", bound=Step)


@dataclass(frozen=True)
class Telling:
    """A step that is to be told: its member of a printed step, and the items that were just told of.

    `is_first` says that it opens a part, right after the head, and `is_shared` that more is laid in that
    part, so that `it` would not be clear; `is_in_hand` that what it works on is laid only next, and
    `is_turned` that this has been turned in the hand; `foam` is what its thing is raised on.
    """

    context: LayoutContext
    language: Language
    member: Member
    it: frozenset[int] = frozenset()
    is_first: bool = True
    is_shared: bool = False
    is_in_hand: bool = False
    is_turned: bool = False
    foam: Foam | None = None

    @property
    def number(self) -> int:
        """The step of the spec, the first where several are told as one."""
        return self.member.steps[0]

    @property
    def placed(self) -> PlacedStep:
        """The step as placing found it."""
        return self.member.first

    def step(self, kind: type[S]) -> S:
        """The step as the spec has it, which is of this kind."""
        assert isinstance(self.placed.step, kind)
        return self.placed.step

    @property
    def path(self) -> SpecPath:
        """Where the spec has it."""
        return self.placed.path

    @property
    def words(self) -> EnglishAssembly:
        """The words of the language."""
        return self.language.assembly

    @property
    def items(self) -> tuple[Placed, ...]:
        """What it lays down."""
        return self.context.items(self.member.items)

    def detail(self, kind: type[D]) -> D | None:
        """Its detail of this kind, the first of several."""
        return self.placed.detail(kind)

    def lying(self, held: Held | None = None) -> Lying:
        """How its things lie, that are laid as one; in no way where placing settled nothing."""
        held = held or self.detail(Held)
        if held is None:
            return Lying()
        names, is_each = self.member.in_hand, self.member.is_on_each
        in_hand = Own(names[0], self.path) if names else None
        lying = lying_of(HeldThing(self.context, self.placed, held, self.it, is_each, in_hand))
        return replace(self.as_turned(lying), foam=self.foam)

    def as_turned(self, lying: Lying) -> Lying:
        """How its things lie, but for what the hand has done already."""
        return replace(lying, handling=Handling()) if self.is_turned else lying

    def thing(self, ids: Sequence[int]) -> Thing:
        """A thing as its sentences refer to it."""
        found = thing_of(self.context, ids, self.number)
        if ids and not (self.it and set(ids) <= self.it):
            return found
        is_each = self.member.is_on_each
        return replace(found, one_of=None, is_it=not is_each, is_each=is_each)

    def owner(self, ids: Sequence[int]) -> Owner:
        """What has an edge, or a middle: a thing, or the page."""
        return Page.THIS if BASE_ID in ids else self.thing(ids)

    def target(self, target: Target) -> Thing:
        """What it works on, by its name where more is laid in the part."""
        thing = self.thing(target.ids)
        if target.ids and not self.is_in_hand:
            return thing
        if not self.is_shared:
            return replace(thing, name=None)
        name = thing.name if target.ids else Own(target.name, self.path)
        return replace(thing, name=name, is_it=False)

    def length(self, value: Fraction, role: Role, *keys: str | int) -> Length:
        """A length that keys of the step state, or that follows from the step."""
        return self.context.length(value, role, (*self.path, *keys))

    def count(self, count: int, key: str = "count") -> Number:
        """A count that a key of the step says."""
        return self.language.basics.few(count, (*self.path, key))

    def own(self, text: str | None, key: str) -> Own | None:
        """The designer's words at a key of the step."""
        return Own(text, (*self.path, key)) if text else None


@dataclass(frozen=True)
class Told:
    """What a step says: what is taken, its sentences before and after the designer's."""

    heads: tuple[Line, ...] = ()
    said: tuple[Line, ...] = ()
    after: tuple[Line, ...] = ()


# Heads.


def heads_of(told: Telling, items: Sequence[Placed]) -> tuple[Line, ...]:
    """What things are called where they are taken, with their labels: those of one kind and size together."""
    kinds = ((_name(told, alike), alike) for alike in _kinds(items))
    return tuple(told.words.labelled(name, piece_labels(told, alike)) for name, alike in kinds if name)


def names_of(told: Telling, items: Sequence[Placed]) -> tuple[Line, ...]:
    """What things are called that lie already: those of one kind and size together."""
    return tuple(name for name in (_name(told, alike) for alike in _kinds(items)) if name)


def _kinds(items: Sequence[Placed]) -> tuple[list[Placed], ...]:
    kinds: dict[tuple[ItemKind, str | None, Size], list[Placed]] = {}
    for item in items:
        kinds.setdefault((item.kind, item.piece, item.upright_size), []).append(item)
    return tuple(kinds.values())


def _name(told: Telling, items: Sequence[Placed]) -> Line:
    item, words = items[0], told.words
    count = told.language.basics.few(len(items), item.path) if len(items) > 1 else None
    if item.kind is ItemKind.PHOTO:
        return words.photo_head(count, photo_extent(item.upright_size, told.context.unit, item.path))
    if item.kind is ItemKind.WRITING:
        return words.writing_head(count)
    name = item_name(told.context, item)
    return words.piece_head(name, count) if name is not None else ()


def piece_labels(told: Telling, items: Iterable[Placed]) -> tuple[PieceRef, ...]:
    """The labels of the pieces that are cut, each once, in order."""
    labels = dict.fromkeys(labels_of(entries_of(told.context, items)))
    return tuple(PieceRef(label, label) for label in labels)
