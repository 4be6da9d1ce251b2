"""Report the findings of a kit: as lines for a person, as JSON for a program."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterable, Sequence
from typing import Any

from booklet.cli.exits import Exit
from booklet.kit.errors import Problem, SpecError
from booklet.kit.finding import Finding, Severity
from booklet.kit.source import Source, describe

_ORDER = {Severity.ERROR: 0, Severity.WARNING: 1, Severity.NOTE: 2}
# The one id that all problems share which keep a spec from being read.
_UNREAD = "spec-invalid"


def has_errors(findings: Sequence[Finding]) -> bool:
    """Whether any finding stops the print file."""
    return any(finding.severity is Severity.ERROR for finding in findings)


def in_order(findings: Sequence[Finding], source: Source) -> list[Finding]:
    """Errors before warnings before notes, each in the order of the spec's lines."""
    return sorted(findings, key=lambda f: (_ORDER[f.severity], source.line(f.where)))


def finding_lines(findings: Sequence[Finding], source: Source) -> list[str]:
    """A line for each finding, and one that counts them."""
    lines = [describe(finding, source) for finding in in_order(findings, source)]
    return [*lines, _count_line(finding.severity for finding in findings)]


def tell_findings(findings: Sequence[Finding], source: Source) -> Exit:
    """Print what there is to say on standard error; the exit code that follows from it."""
    if findings:
        print("\n".join(finding_lines(findings, source)), file=sys.stderr)
    return Exit.KIT_WRONG if has_errors(findings) else Exit.WELL


def problem_lines(unread: SpecError) -> list[str]:
    """A line for each problem of a spec that cannot be read, and one that counts them."""
    return [str(unread), _count_line(Severity.ERROR for _ in unread.problems)]


def _count_line(severities: Iterable[Severity]) -> str:
    """`2 errors, 1 warning`; `nothing wrong` where there are neither, and the notes in any case."""
    counts = Counter(severities)
    said = [_counted(counts[severity], severity) for severity in _ORDER if counts[severity]]
    if not (counts[Severity.ERROR] or counts[Severity.WARNING]):
        said.insert(0, "nothing wrong")
    return ", ".join(said)


def _counted(count: int, severity: Severity) -> str:
    return f"{count} {severity.value}{'s' if count > 1 else ''}"


def findings_json(findings: Sequence[Finding], source: Source) -> dict[str, Any]:
    """How many there are of each severity, and each finding with its id, place and cure."""
    return _with_counts([_finding_json(finding, source) for finding in in_order(findings, source)])


def problems_json(problems: Sequence[Problem]) -> dict[str, Any]:
    """What keeps a spec from being read, in the same form as the findings of one that can be."""
    return _with_counts([_problem_json(problem) for problem in problems])


def _with_counts(findings: list[dict[str, Any]]) -> dict[str, Any]:
    counts = Counter(finding["severity"] for finding in findings)
    return {**{f"{severity.value}s": counts[severity.value] for severity in _ORDER}, "findings": findings}


def _finding_json(finding: Finding, source: Source) -> dict[str, Any]:
    return {
        "id": finding.id,
        "severity": finding.severity.value,
        "file": source.name,
        "line": source.line(finding.where),
        "key": source.words(finding.where),
        "found": finding.found,
        "cure": finding.cure,
        "nearest": None,
    }


def _problem_json(problem: Problem) -> dict[str, Any]:
    return {
        "id": _UNREAD,
        "severity": Severity.ERROR.value,
        "file": problem.file,
        "line": problem.line,
        "key": problem.key,
        "found": problem.found,
        "cure": f"expected {problem.expected}",
        "nearest": problem.nearest,
    }
