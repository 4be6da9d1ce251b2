"""Findings: what a check has to say about a kit, to the person who typed its spec."""

from __future__ import annotations

from enum import Enum

from booklet.measure.dataclass import dataclass

# A value's path in the spec: keys and list indexes from the top, as in ("sheets", 2, "cuts", 0, "at", 1).
SpecPath = tuple[str | int, ...]


class Severity(Enum):
    """How much a finding matters: an error stops the print file."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True)
class Finding:
    """One thing found: its stable id, how much it matters, where in the spec, what, and what to do."""

    id: str
    severity: Severity
    where: SpecPath
    found: str
    cure: str


def error(id: str, where: SpecPath, found: str, cure: str) -> Finding:
    """A finding that stops the print file."""
    return Finding(id, Severity.ERROR, where, found, cure)


def warning(id: str, where: SpecPath, found: str, cure: str) -> Finding:
    """A finding that a person should look at."""
    return Finding(id, Severity.WARNING, where, found, cure)


def note(id: str, where: SpecPath, found: str, cure: str) -> Finding:
    """A finding that is good to know."""
    return Finding(id, Severity.NOTE, where, found, cure)
