"""Layouts: the finished pages, their base and the steps of their assembly."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BeforeValidator, Discriminator, Field, Tag
from pydantic.dataclasses import dataclass

from booklet.kit.fields import STRICT, Face, Name, Title, Turn, WordsField
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
    Tape,
    TrimRound,
    Write,
)

VERBS: dict[str, type[Step]] = {
    "place": Place,
    "row": Row,
    "column": Column,
    "group": PlaceGroup,
    "other_half": OtherHalf,
    "photo": Photo,
    "write": Write,
    "snip": Snip,
    "trim_round": TrimRound,
    "round": Round,
    "punch": Punch,
    "ink": Ink,
    "stencil": Stencil,
    "ribbon": Ribbon,
    "tape": Tape,
    "raise": Raise,
    "add": Add,
    "do": Do,
}


def verb_of(step: Step) -> str:
    """The verb of a step, as it stands in the spec."""
    return next(verb for verb, kind in VERBS.items() if type(step) is kind)


def _verb(value: Any) -> str | None:
    """Which kind of step this is: the one verb among its keys."""
    if isinstance(value, Step):
        return verb_of(value)
    found = [key for key in value if key in VERBS] if isinstance(value, dict) else []
    return found[0] if len(found) == 1 else None


AnyStep = Annotated[
    Annotated[Place, Tag("place")]
    | Annotated[Row, Tag("row")]
    | Annotated[Column, Tag("column")]
    | Annotated[PlaceGroup, Tag("group")]
    | Annotated[OtherHalf, Tag("other_half")]
    | Annotated[Photo, Tag("photo")]
    | Annotated[Write, Tag("write")]
    | Annotated[Snip, Tag("snip")]
    | Annotated[TrimRound, Tag("trim_round")]
    | Annotated[Round, Tag("round")]
    | Annotated[Punch, Tag("punch")]
    | Annotated[Ink, Tag("ink")]
    | Annotated[Stencil, Tag("stencil")]
    | Annotated[Ribbon, Tag("ribbon")]
    | Annotated[Tape, Tag("tape")]
    | Annotated[Raise, Tag("raise")]
    | Annotated[Add, Tag("add")]
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
    steps: Annotated[tuple[AnyStep, ...], Field(max_length=200)] = ()
    title: Title | None = None
    story: WordsField | None = None
    facing: Name | None = None
    photograph: Name | None = None
    tip: WordsField | None = None
