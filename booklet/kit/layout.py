"""Layouts: the finished pages, their base and the steps of their assembly."""

from __future__ import annotations

from enum import Enum
from typing import Annotated, Any

from pydantic import BeforeValidator, Discriminator, Field, Tag
from pydantic.dataclasses import dataclass

from booklet.kit.fields import STRICT, Edge, Face, Length, Name, SizeField, Turn, Words, as_tuple

Edges = Annotated[tuple[Edge, ...], BeforeValidator(as_tuple)]


class Centring(Enum):
    """Along which direction something is centred on its reference."""

    BOTH = "both"
    ACROSS = "across"
    DOWN = "down"


def _centring(value: Any) -> Any:
    """`centred: yes` is the plain way to say both."""
    return Centring.BOTH if value is True else value


@dataclass(config=STRICT, frozen=True, kw_only=True)
class Position:
    """Where something lies: distances from edges of the page, or of something already placed.

    Each axis is fixed once: by a distance from one edge of the reference, by `flush`, by `centred`, or by
    lying beside, above or below something at a `gap`.
    """

    on: Name | None = None
    under: Name | None = None
    beside: Name | None = None
    side: Edge | None = None
    above: Name | None = None
    below: Name | None = None
    gap: Length | None = None
    left: Length | None = None
    right: Length | None = None
    top: Length | None = None
    bottom: Length | None = None
    flush: Edges = ()
    centred: Annotated[Centring | None, BeforeValidator(_centring)] = None
    turn: Turn | None = None
    tilt: Annotated[float, Field(ge=-90, le=90)] = 0.0
    face: Face = Face.FRONT
    overhang: bool = False


@dataclass(config=STRICT, frozen=True, kw_only=True)
class Step(Position):
    """What every step of an assembly may say besides its verb."""

    called: Name | None = None
    say: Words | None = None
    tip: Words | None = None
    optional: bool = False


@dataclass(config=STRICT, frozen=True, kw_only=True)
class Place(Step):
    """Lay a piece on the page."""

    place: Name


@dataclass(config=STRICT, frozen=True, kw_only=True)
class Photo(Step):
    """Leave or mount a photograph of this size, width first."""

    photo: SizeField


@dataclass(config=STRICT, frozen=True, kw_only=True)
class Write(Step):
    """Leave a space of this size for handwriting."""

    write: SizeField


@dataclass(config=STRICT, frozen=True, kw_only=True)
class Do(Step):
    """Anything else, in the designer's words."""

    do: Words


VERBS: dict[str, type[Step]] = {"place": Place, "photo": Photo, "write": Write, "do": Do}


def _verb(value: Any) -> str | None:
    """Which kind of step this is: the one verb among its keys."""
    if isinstance(value, Step):
        return next(verb for verb, kind in VERBS.items() if type(value) is kind)
    found = [key for key in value if key in VERBS] if isinstance(value, dict) else []
    return found[0] if len(found) == 1 else None


AnyStep = Annotated[
    Annotated[Place, Tag("place")]
    | Annotated[Photo, Tag("photo")]
    | Annotated[Write, Tag("write")]
    | Annotated[Do, Tag("do")],
    Discriminator(
        _verb,
        custom_error_type="one_verb",
        custom_error_message=f"a step with exactly one of: {', '.join(VERBS)}",
    ),
]


@dataclass(config=STRICT, frozen=True, kw_only=True)
class Base:
    """The piece that all else on a layout lies on, turned or with its back up if said."""

    piece: Name
    face: Face = Face.FRONT
    turn: Turn | None = None


def _base(value: Any) -> Any:
    """A base is mostly just a piece's name."""
    return {"piece": value} if isinstance(value, str) else value


@dataclass(config=STRICT, frozen=True, kw_only=True)
class Layout:
    """One finished page: its base, its pocket and its steps in assembly order.

    `facing` names the layout that lies to its right in a spread.
    """

    id: Name
    pocket: Annotated[int, Field(ge=1, le=99)]
    base: Annotated[Base, BeforeValidator(_base)]
    steps: tuple[AnyStep, ...] = ()
    title: Words | None = None
    story: Words | None = None
    facing: Name | None = None
    photograph: Name | None = None
    tip: Words | None = None
