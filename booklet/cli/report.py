"""Report the findings of a kit: as lines for a person, as JSON for a program."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterable, Sequence
from typing import Any

from booklet.cli.exits import Exit
from booklet.kit.errors import Problem, SpecError
from booklet.kit.finding import Finding, Severity, SpecPath
from booklet.kit.source import Source, describe
from booklet.measure.dataclass import replace
from booklet.proof.told import SEVERITIES, told_once

# The one id that all problems share which keep a spec from being read.
_UNREAD = "spec-invalid"


def has_errors(findings: Sequence[Finding]) -> bool:
    """Whether any finding stops the print file."""
    return any(finding.severity is Severity.ERROR for finding in findings)


def strictly(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """The findings with every warning as an error: nothing is printed that a person should look at first."""
    return tuple(
        replace(finding, severity=Severity.ERROR) if finding.severity is Severity.WARNING else finding
        for finding in findings
    )


def finding_lines(findings: Sequence[Finding], source: Source) -> list[str]:
    """A line for each thing found, and one that counts them."""
    told = told_once(findings, source)
    lines = [_finding_line(finding, places, source) for finding, places in told]
    return [*lines, _count_line(finding.severity for finding, _ in told)]


def _finding_line(finding: Finding, places: Iterable[SpecPath], source: Source) -> str:
    """A finding, and the other lines of which the same is to be said: `The same in lines 8, 9 and 12`."""
    said, first = describe(finding, source), source.line(finding.where)
    lines = [str(at) for at in dict.fromkeys(map(source.line, places)) if at != first]
    if not lines:
        return said
    *before, last = lines
    listed = f"lines {', '.join(before)} and {last}" if before else f"line {last}"
    return f"{said}{'' if said.endswith(('.', '!', '?')) else '.'} The same in {listed}"


def tell_findings(findings: Sequence[Finding], source: Source) -> Exit:
    """Print what there is to say on standard error; the exit code that follows from it."""
    if findings:
        print("\n".join(finding_lines(findings, source)), file=sys.stderr)
    return Exit.KIT_WRONG if has_errors(findings) else Exit.WELL


def tell_warnings_again(findings: Sequence[Finding], source: Source) -> None:
    """Print on standard error which kinds of warning the booklet is printed with, the most frequent first."""
    kinds: dict[str, list[list[int]]] = {}
    for finding, places in told_once(findings, source):
        if finding.severity is Severity.WARNING:
            at = [source.line(where) for where in (finding.where, *places)]
            kinds.setdefault(finding.id, []).append(at)
    if kinds:
        print(f"Printed with {_counted(sum(map(len, kinds.values())), Severity.WARNING)}:", file=sys.stderr)
    for id, told in sorted(kinds.items(), key=lambda kind: -len(kind[1])):
        lines = dict.fromkeys(str(line) for at in told for line in at)
        print(f"  {len(told)} {id} (line {', '.join(lines)})", file=sys.stderr)


def problem_lines(unread: SpecError) -> list[str]:
    """A line for each problem of a spec that cannot be read, and one that counts them."""
    return [str(unread), _counted(len(unread.problems) + unread.more, Severity.ERROR)]


def _count_line(severities: Iterable[Severity]) -> str:
    """`2 errors, 1 warning`; `nothing wrong` where there are neither, and the notes in any case."""
    counts = Counter(severities)
    said = [_counted(counts[severity], severity) for severity in SEVERITIES if counts[severity]]
    if not (counts[Severity.ERROR] or counts[Severity.WARNING]):
        said.insert(0, "nothing wrong")
    return ", ".join(said)


def _counted(count: int, severity: Severity) -> str:
    return f"{count} {severity.value}{'s' if count > 1 else ''}"


def findings_json(findings: Sequence[Finding], source: Source) -> dict[str, Any]:
    """How many there are of each severity, and each thing found with its id, places and cure."""
    return _with_counts([_finding_json(*told, source) for told in told_once(findings, source)])


def problems_json(unread: SpecError) -> dict[str, Any]:
    """What keeps a spec from being read, in the same form as the findings of one that can be.

    Where it has more problems than are told, `more` says how many.
    """
    told = _with_counts([_problem_json(problem) for problem in unread.problems])
    return (
        {**told, "errors": len(unread.problems) + unread.more, "more": unread.more} if unread.more else told
    )


def _with_counts(findings: list[dict[str, Any]]) -> dict[str, Any]:
    counts = Counter(finding["severity"] for finding in findings)
    return {**{f"{severity.value}s": counts[severity.value] for severity in SEVERITIES}, "findings": findings}


def _finding_json(finding: Finding, places: Iterable[SpecPath], source: Source) -> dict[str, Any]:
    return {
        "id": finding.id,
        "severity": finding.severity.value,
        "file": source.name,
        **_place_json(finding.where, source),
        "also": [_place_json(where, source) for where in places],
        "found": finding.found,
        "cure": finding.cure,
        "nearest": None,
    }


def _place_json(where: SpecPath, source: Source) -> dict[str, Any]:
    return {"line": source.line(where), "key": source.words(where)}


def _problem_json(problem: Problem) -> dict[str, Any]:
    return {
        "id": _UNREAD,
        "severity": Severity.ERROR.value,
        "file": problem.file,
        "line": problem.line,
        "key": problem.key,
        "also": [],
        "found": problem.found,
        "cure": f"expected {problem.expected}",
        "nearest": problem.nearest,
    }
