"""What each command does."""

from __future__ import annotations

import json
import sys
from argparse import Namespace
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from booklet.cli.files import write_files
from booklet.cli.progress import working
from booklet.cli.report import (
    finding_lines,
    findings_json,
    has_errors,
    problem_lines,
    problems_json,
)
from booklet.kit.errors import Problem, UsageError
from booklet.kit.finding import Finding
from booklet.kit.load import LoadedKit, load_kit
from booklet.kit.source import Source
from booklet.proof.findings import kit_findings

if TYPE_CHECKING:
    from booklet.drawing.figure import Figure
    from booklet.placing.worked import WorkedKit

_WELL, _WRONG = 0, 1


def check(options: Namespace) -> int:
    """Print every finding on a kit."""
    loaded, worked = _work_out(options.kit)
    findings = kit_findings(worked)
    if options.json:
        print(json.dumps(findings_json(findings, loaded.source), indent=2))
    else:
        print("\n".join(finding_lines(findings, loaded.source)))
    return _WRONG if has_errors(findings) else _WELL


def draw(options: Namespace) -> int:
    """Write every figure of the booklet as SVG."""
    from booklet.pages.booklet import make_booklet

    loaded, worked = _work_out(options.kit)
    with working("Drawing"):
        made = make_booklet(worked, draft=False)
        files = _figure_files(made.figures)
    _tell_written(write_files(options.out, files))
    return _tell_findings(loaded.source, kit_findings(worked))


def make(options: Namespace) -> int:
    """Write the booklet to read and to print, its figures and its sorting table."""
    from booklet.binding.home import print_at_home
    from booklet.binding.impose import Flip
    from booklet.pages.booklet import make_booklet
    from booklet.pages.tables import sorting_csv

    loaded, worked = _work_out(options.kit)
    findings = kit_findings(worked)
    if has_errors(findings) and not options.draft:
        _tell_findings(loaded.source, findings)
        print("Nothing was written: mend the errors, or see it as it is with --draft.", file=sys.stderr)
        return _WRONG
    stem = Path(options.kit).stem
    with working("Making the booklet"):
        made = make_booklet(worked, draft=options.draft)
        files = {
            f"{stem}-read.pdf": made.pdf,
            f"{stem}-print.pdf": print_at_home(made.pdf, worked.kit.page, Flip(options.flip)),
            f"{stem}-sorting.csv": sorting_csv(worked),
            **_figure_files(made.figures),
        }
    _tell_written(write_files(options.out, files))
    return _tell_findings(loaded.source, findings)


def schema(options: Namespace) -> int:  # noqa: ARG001 (every command takes its options)
    """Print the JSON Schema of the spec."""
    from booklet.kit.schema import json_schema

    print(json.dumps(json_schema(), indent=2, ensure_ascii=False))
    return _WELL


def new(options: Namespace) -> int:
    """Write a small commented spec that builds, where none is yet."""
    from booklet.cli.starter import STARTER_NAME, STARTER_SPEC

    target = options.folder / STARTER_NAME
    if target.exists():
        raise UsageError(f"{target} is there already; it is left as it is")
    _tell_written(write_files(options.folder, {STARTER_NAME: STARTER_SPEC.encode()}))
    print(f"Next: booklet make {target}")
    return _WELL


def tell_problems(problems: Sequence[Problem], as_json: bool) -> None:
    """Print what keeps a spec from being read."""
    if as_json:
        print(json.dumps(problems_json(problems), indent=2))
    else:
        print("\n".join(problem_lines(problems)), file=sys.stderr)


def _work_out(kit: str) -> tuple[LoadedKit, WorkedKit]:
    from booklet.kit.bundled import find_spec
    from booklet.placing.worked import work_out

    loaded = load_kit(find_spec(kit))
    return loaded, work_out(loaded)


def _figure_files(figures: Sequence[Figure]) -> dict[str, bytes]:
    from booklet.drawing.svg_writer import figure_svg

    return {f"figures/{figure.name}.svg": figure_svg(figure).encode() for figure in figures}


def _tell_written(paths: Sequence[Path]) -> None:
    figures = [path for path in paths if path.parent.name == "figures"]
    for path in paths:
        if path not in figures:
            print(path)
    if figures:
        print(f"{figures[0].parent}: {len(figures)} figures")


def _tell_findings(source: Source, findings: Sequence[Finding]) -> int:
    if findings:
        print("\n".join(finding_lines(findings, source)), file=sys.stderr)
    return _WRONG if has_errors(findings) else _WELL
