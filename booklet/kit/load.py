"""A kit spec file -> the kit, or every problem of the file at once."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from pydantic import TypeAdapter, ValidationError

from booklet.kit.errors import SpecError, UsageError
from booklet.kit.explain import explain_validation_error
from booklet.kit.kit import Kit
from booklet.kit.references import check_references
from booklet.kit.source import Source
from booklet.kit.tree import Complaint, Spot, UnreadableError, plain, read_tree
from booklet.kit.words import nearest, shown
from booklet.measure.length import Unit

# A spec is typed by hand: the largest is some ten thousand letters.
MAX_BYTES = 1 << 20
# What YAML does not allow in a text (YAML 1.2.2, section 5.1, from memory).
_UNPRINTABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\x80-\x84\x86-\x9f\ud800-\udfff\ufeff\ufffe\uffff]")


@dataclass(frozen=True)
class LoadedKit:
    """A kit, where its values were typed, and the folder that its images lie in."""

    kit: Kit
    source: Source
    folder: Path


def load_kit(path: str | Path) -> LoadedKit:
    """Read a kit spec.

    Raises SpecError with every problem of the file, UsageError where there is no such file.
    """
    file = Path(path)
    name = file.name if file.is_absolute() else str(file)
    text = _decode(_read(file), name)
    return parse_kit(text, name, file.parent)


def parse_kit(text: str, name: str, folder: Path) -> LoadedKit:
    """A spec's text as a kit; `name` is for messages, `folder` holds its images.

    Raises SpecError with every problem of the text.
    """
    lines = tuple(text.splitlines())
    try:
        tree, complaints = read_tree(text)
    except UnreadableError as error:
        raise SpecError([Source(name, None, lines).problem(error.complaint)]) from None
    source = Source(name, tree, lines)
    try:
        kit = _validated(plain(tree))
    except ValidationError as error:
        raise _spec_error(complaints + explain_validation_error(error, Kit, source), source) from None
    complaints += check_references(kit, folder)
    if complaints:
        raise _spec_error(complaints, source)
    return LoadedKit(kit, source, folder)


@cache
def _adapter() -> TypeAdapter[Kit]:
    return TypeAdapter(Kit)


def _validated(data: Any) -> Kit:
    return _adapter().validate_python(data, context={"unit": _unit(data)})


def _unit(data: Any) -> Unit:
    """The kit's unit, which its bare numbers are in; a wrong one is reported with the other problems."""
    said = data.get("unit") if isinstance(data, dict) else None
    return next((unit for unit in Unit if unit.value == said), Unit.INCH)


def _spec_error(complaints: list[Complaint], source: Source) -> SpecError:
    """The problems in the order of the file."""
    problems = [source.problem(complaint) for complaint in complaints]
    return SpecError(sorted(problems, key=lambda problem: (problem.line or 0, problem.column or 0)))


def _read(file: Path) -> bytes:
    try:
        if file.is_dir():
            raise UsageError(f"{shown(file.name)} is a folder, expected a kit spec in it")
        if not file.is_file():
            raise UsageError(_missing(file))
        with file.open("rb") as stream:
            data = stream.read(MAX_BYTES + 1)
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else "not a file name"
        raise UsageError(f"cannot read {shown(file.name)}: {reason}") from None
    if len(data) > MAX_BYTES:
        raise UsageError(f"{shown(file.name)} is larger than a kit spec can be ({MAX_BYTES >> 10} KiB)")
    return data


def _missing(file: Path) -> str:
    try:
        beside = sorted(other.name for other in file.parent.iterdir() if other.is_file())
    except OSError:
        beside = []
    close = nearest(file.name, beside)
    return f"there is no file {shown(file.name)}" + (f" (nearest: {shown(close)})" if close else "")


def _decode(data: bytes, name: str) -> str:
    """The file's text.  Raises SpecError at the first byte or letter that a spec cannot hold."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        spot = _spot_after(data[: error.start].decode("utf-8", "replace"))
        complaint = Complaint((), "a byte that is not UTF-8", "a text file saved as UTF-8", spot=spot)
        raise SpecError([Source(name, None, ()).problem(complaint)]) from None
    match = _UNPRINTABLE.search(text)
    if match:
        found, spot = f"the control character U+{ord(match[0]):04X}", _spot_after(text[: match.start()])
        complaint = Complaint((), found, "text only", spot=spot)
        raise SpecError([Source(name, None, ()).problem(complaint)])
    return text


def _spot_after(text: str) -> Spot:
    return Spot(text.count("\n") + 1, len(text) - text.rfind("\n"))
