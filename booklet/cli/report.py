"""Tell the findings of a kit: as lines for a person, as JSON for a program."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Any

from booklet.kit.errors import Problem, problem_text
from booklet.kit.finding import Finding, Severity
from booklet.kit.source import Source, describe

_ORDER = {Severity.ERROR: 0, Severity.WARNING: 1, Severity.NOTE: 2}


def has_errors(findings: Sequence[Finding]) -> bool:
    """Whether any finding stops the print file."""
    return any(finding.severity is Severity.ERROR for finding in findings)


def in_order(findings: Sequence[Finding], source: Source) -> list[Finding]:
    """Errors before warnings before notes, each in the order of the spec's lines."""
    return sorted(findings, key=lambda f: (_ORDER[f.severity], source.line(f.where)))


def finding_lines(findings: Sequence[Finding], source: Source) -> list[str]:
    """A line for each finding, and one that counts them."""
    lines = [describe(finding, source) for finding in in_order(findings, source)]
    return [*lines, count_line(findings)]


def count_line(findings: Sequence[Finding]) -> str:
    """`2 errors, 1 warning`; `nothing wrong` where there are neither, and the notes in any case."""
    counts = Counter(finding.severity for finding in findings)
    said = [_counted(counts[severity], severity) for severity in _ORDER if counts[severity]]
    if not (counts[Severity.ERROR] or counts[Severity.WARNING]):
        said.insert(0, "nothing wrong")
    return ", ".join(said)


def _counted(count: int, severity: Severity) -> str:
    return f"{count} {severity.value}{'s' if count > 1 else ''}"


def findings_json(findings: Sequence[Finding], source: Source) -> list[dict[str, Any]]:
    """Each finding with its id, severity, place and cure."""
    return [
        {
            "id": finding.id,
            "severity": finding.severity.value,
            "file": source.name,
            "line": source.line(finding.where),
            "path": list(finding.where),
            "found": finding.found,
            "cure": finding.cure,
        }
        for finding in in_order(findings, source)
    ]


def problem_lines(problems: Sequence[Problem]) -> list[str]:
    """A line for each problem that keeps the spec from being read."""
    return [problem_text(problem) for problem in problems]


def problems_json(problems: Sequence[Problem]) -> list[dict[str, Any]]:
    """Each problem as it stands, under the one id that they share."""
    return [
        {
            "id": "spec-invalid",
            "severity": Severity.ERROR.value,
            "file": problem.file,
            "line": problem.line,
            "key": problem.key,
            "found": problem.found,
            "cure": f"expected {problem.expected}",
            "nearest": problem.nearest,
        }
        for problem in problems
    ]
