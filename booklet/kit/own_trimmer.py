"""A person's own trimmer: a file with the keys of a kit's `trimmer`, for whatever kit is made."""

from __future__ import annotations

from dataclasses import fields
from pathlib import Path
from typing import Annotated, Any

from booklet.kit.kit import Kit, ScaleZero, Trimmer
from booklet.kit.read import read_model
from booklet.kit.rules import Meaning
from booklet.kit.source import Source
from booklet.kit.text import read_text
from booklet.kit.tree import Complaint, Keyed, Scalar
from booklet.kit.words import shown
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit, convert, parse_length

_A_TRIMMER = "a trimmer's keys"
_A_LENGTH_WITH_UNIT = "a length with its unit, such as 12 in or 305 mm, or a key unit for the whole file"


@dataclass(frozen=True, kw_only=True)
class MembersTrimmer(Trimmer):
    """A trimmer that a person has, which takes the place of the one that a kit presumes."""

    unit: Annotated[Unit | None, Meaning("the unit of the bare numbers in this file")] = None


@dataclass(frozen=True)
class OwnTrimmer:
    """What a person's file says: `name` is the file's for messages, `said` its values by key.

    `text` is all of it as it was typed.  Lengths are in `unit`.
    """

    name: str
    said: dict[str, Any]
    unit: Unit
    text: str


def load_trimmer(file: Path, name: str) -> OwnTrimmer:
    """Read a person's trimmer; `name` is the file's for messages.

    Raises SpecError with every problem of the file, UsageError where there is no such file.
    """
    return parse_trimmer(read_text(file, name, _A_TRIMMER), name)


def parse_trimmer(text: str, name: str) -> OwnTrimmer:
    """The text of a person's trimmer; `name` is for messages.  Raises SpecError with every problem of it."""
    trimmer, source = read_model(MembersTrimmer, text, name, _A_TRIMMER, _bare_numbers)
    keys = source.tree.entries if isinstance(source.tree, Keyed) else {}
    said = {key: getattr(trimmer, key) for key in keys if key != "unit"}
    return OwnTrimmer(name, said, trimmer.unit or Unit.INCH, text)


def fit_trimmer(kit: Kit, own: OwnTrimmer) -> Kit:
    """The kit for a person's own trimmer: what the file says, and else what the kit says.

    Where its scale begins at the other side, every sheet lies half round, so that the same print comes off.
    """
    presumed = {field.name: getattr(kit.trimmer, field.name) for field in fields(kit.trimmer)}
    said = {
        key: convert(value, own.unit, kit.unit) if isinstance(value, Fraction) else value
        for key, value in own.said.items()
    }
    trimmer = MembersTrimmer(**presumed | said)
    return replace(with_zero(kit, trimmer.zero), trimmer=trimmer)


def with_zero(kit: Kit, zero: ScaleZero) -> Kit:
    """The kit for a trimmer like its own whose scale begins at this side: at the other one, every sheet lies
    half round, so that the same print comes off."""
    if zero is kit.trimmer.zero:
        return kit
    sheets = tuple(replace(sheet, lay=sheet.lay.half_round) for sheet in kit.sheets)
    return replace(kit, trimmer=replace(kit.trimmer, zero=zero), sheets=sheets)


def _bare_numbers(trimmer: MembersTrimmer, source: Source) -> list[Complaint]:
    """Lengths without a unit, where the file says none: a kit in another one would take them for its own."""
    if trimmer.unit is not None or not isinstance(source.tree, Keyed):
        return []
    typed = {key: entry.value for key, entry in source.tree.entries.items()}
    return [
        Complaint((key,), shown(node.text), _A_LENGTH_WITH_UNIT)
        for key, node in typed.items()
        if isinstance(getattr(trimmer, key), Fraction) and isinstance(node, Scalar) and node.text
        if _is_bare(node.text)
    ]


def _is_bare(text: str) -> bool:
    """Whether a length says no unit of its own: it reads the same number in every unit."""
    return parse_length(text, Unit.INCH) == parse_length(text, Unit.MILLIMETRE)
