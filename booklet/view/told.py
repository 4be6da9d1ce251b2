"""What is shown, as a browser is told it."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterator
from typing import Any

from booklet.kit.errors import Problem
from booklet.kit.finding import SpecPath
from booklet.kit.kept_path import KeptStep, kept_path
from booklet.kit.source import Source
from booklet.view.pictures import Patch
from booklet.view.places import PartOfPage
from booklet.view.shown import PageChange, Shown, ShownFinding, ShownPage, Wrong

# Finer than a pixel of any screen.
_DECIMALS = 5


def state_told(shown: Shown) -> dict[str, Any]:
    """All but the places on the pages and the lines of the spec."""
    return {
        "status": shown.status.value,
        "save": shown.save,
        "title": shown.title,
        "size": list(shown.size),
        "pages": [page_told(page) for page in shown.pages],
        "problems": [_problem_told(problem) for problem in shown.wrong.problems],
        "more": shown.wrong.more,
        "trouble": _trouble_told(shown.wrong),
        "findings": [_finding_told(each, shown.source) for each in shown.findings if shown.source],
        "changes": [_change_told(change) for change in shown.changes],
        "pagesBefore": shown.pages_before,
    }


def page_told(page: ShownPage, patch: Patch | None = None) -> dict[str, Any]:
    """A page by its number, its content and its name, with what its picture lacks, where that is known."""
    told = {"number": page.number, "digest": page.digest, "title": page.title}
    return told if patch is None else {**told, "patch": _patch_told(patch)}


def _patch_told(patch: Patch) -> dict[str, Any]:
    png = b64encode(patch.png).decode("ascii")
    return {"before": patch.before, "width": patch.width, "box": list(patch.box), "png": png}


def places_told(shown: Shown, number: int) -> list[dict[str, Any]]:
    """The places on a page, each with its line in the spec and what the spec calls it."""
    source = shown.source
    if source is None:
        return []
    return [
        {"part": part_told(place.part), **place_told(place.path, source)}
        for place in shown.places.get(number, ())
    ]


def part_told(part: PartOfPage) -> list[float]:
    """Left, top, right and bottom."""
    return [round(float(side), _DECIMALS) for side in part]


def place_told(path: SpecPath, source: Source) -> dict[str, Any]:
    """Where the spec has something: its line, what it is called there, and how it is asked for again."""
    kept = [_step_told(step) for step in kept_path(path, source)]
    return {"line": source.line(path), "key": source.words(path), "at": kept}


def _step_told(step: KeptStep) -> str | list[Any]:
    return step if isinstance(step, str) else [step.index, step.name, step.count]


def _trouble_told(wrong: Wrong) -> dict[str, Any] | None:
    return {"said": wrong.trouble, "line": wrong.line, "key": wrong.key} if wrong.trouble else None


def _problem_told(problem: Problem) -> dict[str, Any]:
    return {
        "line": problem.line,
        "column": problem.column,
        "key": problem.key,
        "found": problem.found,
        "expected": problem.expected,
        "nearest": problem.nearest,
    }


def _finding_told(shown: ShownFinding, source: Source) -> dict[str, Any]:
    finding = shown.finding
    return {
        "id": finding.id,
        "severity": finding.severity.value,
        **place_told(finding.where, source),
        "also": list(_other_lines(shown, source)),
        "found": finding.found,
        "cure": finding.cure[:1].upper() + finding.cure[1:],
        "on": [{"page": number, "part": part_told(part)} for number, part in shown.on],
    }


def _other_lines(shown: ShownFinding, source: Source) -> Iterator[int]:
    lines = dict.fromkeys(source.line(where) for where in shown.also)
    lines.pop(source.line(shown.finding.where), None)
    yield from lines


def _change_told(change: PageChange) -> dict[str, Any]:
    part = None if change.part is None else part_told(change.part)
    return {"page": change.number, "title": change.title, "part": part}
