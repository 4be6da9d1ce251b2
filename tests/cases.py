"""Tables of findings: for each fault a kit that has it, and one that is just inside."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from booklet.kit.finding import Finding, Severity, SpecPath
from booklet.kit.kit import Kit
from tests.kits import value_at


@dataclass(frozen=True)
class Case:
    """A fault, where it stands, and the two kits on either side of it."""

    id: str
    where: SpecPath
    faulty: Kit
    sound: Kit
    severity: Severity = Severity.ERROR


def assert_told_once(case: Case, found: Sequence[Finding]) -> None:
    """The fault is the one thing found in the faulty kit: where it stands, how grave, and with a cure."""
    (finding,) = found
    assert finding.where == case.where
    assert finding.severity is case.severity
    assert finding.found
    assert finding.cure
    value_at(case.faulty, finding.where)
