"""What is found, in the order in which it is told: the gravest first, what is alike once."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.kit.finding import Finding, Severity, SpecPath
from booklet.kit.source import Source
from booklet.measure.dataclass import replace

SEVERITIES = (Severity.ERROR, Severity.WARNING, Severity.NOTE)


def told_once(findings: Sequence[Finding], source: Source) -> list[tuple[Finding, tuple[SpecPath, ...]]]:
    """Each thing found where it is found first, with the other places of which the same is to be said.

    Errors before warnings before notes, each in the order of the spec's lines.
    """
    ordered = sorted(findings, key=lambda f: (SEVERITIES.index(f.severity), source.line(f.where)))
    alike: dict[Finding, list[Finding]] = {}
    for finding in ordered:
        alike.setdefault(replace(finding, where=()), []).append(finding)
    places = (list(dict.fromkeys(one.where for one in same)) for same in alike.values())
    return [(same[0], tuple(where[1:])) for same, where in zip(alike.values(), places, strict=True)]
