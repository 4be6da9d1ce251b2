"""What each command does."""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, nullcontext
from dataclasses import field
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from booklet.cli.asked import load_asked
from booklet.cli.exits import Exit
from booklet.cli.json_text import json_text
from booklet.cli.progress import Tell, planning_progress, progress
from booklet.kit.errors import SpecError, UsageError
from booklet.measure.dataclass import dataclass

if TYPE_CHECKING:
    from booklet.binding.binding import Binding
    from booklet.cli.binding_options import Printing
    from booklet.kit.finding import Finding
    from booklet.kit.kit import Kit
    from booklet.kit.load import LoadedKit
    from booklet.pages.booklet import LaidBooklet
    from booklet.placing.resolved import ResolvedKit

# Two kits may be made into one place: there each figure's name begins with its kit's.
_FIGURES = "figures"


def check(options: Namespace) -> Exit:
    """Print every finding on a kit, or what keeps its spec from being read."""
    from booklet.cli.report import (
        finding_lines,
        findings_json,
        has_errors,
        problem_lines,
        problems_json,
        strictly,
    )

    try:
        loaded = load_asked(options)
    except SpecError as unread:
        report = json_text(problems_json(unread)) if options.json else "\n".join(problem_lines(unread))
        print(report)
        return Exit.KIT_WRONG
    checked = _check_sheets(loaded.kit) if options.sheets else _check_all(loaded)
    findings = strictly(checked.findings) if options.strict else checked.findings
    if options.json:
        print(json_text({**findings_json(findings, loaded.source), **checked.shown}))
    else:
        print("\n".join([*checked.lines, *finding_lines(findings, loaded.source)]))
    return Exit.KIT_WRONG if has_errors(findings) else Exit.WELL


@dataclass(frozen=True)
class _Checked:
    """What a check found, and what it shows above that: lines for a person, the same for a program."""

    findings: tuple[Finding, ...]
    lines: tuple[str, ...] = ()
    shown: Mapping[str, Any] = field(default_factory=dict)


def _check_all(loaded: LoadedKit) -> _Checked:
    from booklet.placing.resolved import resolve_kit
    from booklet.proof.findings import kit_findings
    from booklet.proof.thickness import check_thickness

    with planning_progress(loaded.kit) as begun:
        resolved = resolve_kit(loaded, begun=begun)
    return _Checked((*kit_findings(resolved), *check_thickness(resolved)))


def _check_sheets(spec: Kit) -> _Checked:
    """Only the sheets, their cuts and their sums: what can be checked before any layout exists."""
    from booklet.cli.sheet_sums import sheet_lines, sheets_json
    from booklet.placing.resolved import plan_and_cut
    from booklet.proof.findings import sheet_findings

    with planning_progress(spec) as begun:
        cut = plan_and_cut(spec, begun)
    lines = tuple(sheet_lines(cut.sheets, cut.kit.unit))
    shown = {"sheets": sheets_json(cut.sheets, cut.kit.unit)}
    return _Checked(sheet_findings(cut.kit, cut.sheets), lines, shown)


def draw(options: Namespace) -> Exit:
    """Write every figure of the booklet as SVG, of a kit with errors too: they may be what is to be seen."""
    from booklet.cli.report import tell_findings
    from booklet.cli.written import write_set
    from booklet.pages.booklet import make_booklet
    from booklet.proof.findings import kit_findings

    loaded, resolved = _load_and_resolve(options)
    stem = loaded.source.stem
    with progress() as tell:
        tell("Drawing the figures")
        booklet = make_booklet(resolved)
        written = write_set(options, stem, _figure_files(booklet, stem), booklet.edition)
    _tell_written(written, stem)
    return tell_findings(kit_findings(resolved), loaded.source)


def make(options: Namespace) -> Exit:
    """Write the booklet to read and to print, its figures and its tables; in black, the figures stay out."""
    from booklet.cli.report import problems_json

    try:
        return _make(options)
    except SpecError as unread:
        if options.json:
            print(json_text({"files": [], **problems_json(unread)}))
        raise


def _make(options: Namespace) -> Exit:
    from booklet.cli.binding_options import printing_of
    from booklet.cli.print_words import print_lines
    from booklet.cli.report import findings_json, has_errors, strictly, tell_findings, tell_warnings_again
    from booklet.cli.written import tell_stale, write_set
    from booklet.measure.fork import run_in_fork
    from booklet.pages.booklet import make_black_booklet, make_booklet
    from booklet.proof.findings import kit_findings

    _refuse_proof_in_black(options)
    loaded, resolved = _load_and_resolve(options)
    printing = printing_of(options, resolved.kit.page)
    stem, found = loaded.source.stem, kit_findings(resolved)
    findings = strictly(found) if options.strict else found
    if has_errors(findings) and not options.draft:
        if options.json:
            print(json_text({"files": [], **findings_json(findings, loaded.source)}))
        ended = tell_findings(findings, loaded.source)
        print("Nothing was written: mend the errors, or see it as it is with --draft.", file=sys.stderr)
        return ended
    with progress() as tell:
        tell("Laying out the pages")
        with _placing_overflow(loaded):
            booklet = make_black_booklet(resolved) if options.black else make_booklet(resolved)
        drawing = nullcontext(dict) if options.black else run_in_fork(partial(_figure_files, booklet, stem))
        with drawing as figures:
            printed = _printed(resolved, booklet, stem, options, printing, tell)
            proved = None
            if options.proof:
                proved = _proved(loaded, resolved, booklet, printed, found, printing.binding, tell)
                printed = proved.files
            written = write_set(options, stem, {**printed, **figures()}, booklet.edition)
    if options.json:
        told = {"files": list(map(str, written)), **findings_json(findings, loaded.source)}
        print(json_text(told | ({"proof": proved.told} if proved else {})))
    else:
        _tell_written(written, stem)
        lines = list(proved.lines) if proved else []
        if proved is None or proved.holds:  # else there is no file to print
            named = _named(stem, options)
            lines[:0] = print_lines(printing.binding, printing.stack, named, len(booklet.pages))
        print("".join(f"{line}\n" for line in lines), end="")
    tell_stale(options.out, stem, booklet.edition)
    ended = tell_findings(findings, loaded.source)
    tell_warnings_again(findings, loaded.source)
    return ended if proved is None or proved.holds else Exit.KIT_WRONG


@contextmanager
def _placing_overflow(loaded: LoadedKit) -> Iterator[None]:
    """Name the line of the spec of what no page holds."""
    from booklet.kit.errors import place_text
    from booklet.pages.flow import PageOverflowError

    try:
        yield
    except PageOverflowError as overflow:
        place = place_text(loaded.source.name, loaded.source.line(overflow.where))
        raise PageOverflowError(f"{place}: {overflow}", overflow.where) from None


def _refuse_proof_in_black(options: Namespace) -> None:
    if options.black and options.proof:
        raise UsageError(
            "the proof tells the things in a figure apart by their colours: prove the files in colour, which "
            "show the same numbers in the same places, and leave out --proof, or --black"
        )


@dataclass(frozen=True)
class _Proved:
    """What proving the finished files found, told in lines and for a program, and the files to write."""

    holds: bool
    files: dict[str, bytes]
    lines: tuple[str, ...]
    told: dict[str, Any]


def _proved(
    loaded: LoadedKit,
    resolved: ResolvedKit,
    booklet: LaidBooklet,
    printed: dict[str, bytes],
    findings: Sequence[Finding],
    binding: Binding,
    tell: Tell,
) -> _Proved:
    """Prove the finished files before they are written: one to print that is wrong is not written at all."""
    from booklet.cli.proof_command import Made, proof_files, prove_made
    from booklet.cli.proof_lines import proof_json, proof_lines

    tell("Reading the pages back")
    pdfs = {name: data for name, data in printed.items() if name.endswith(".pdf")}
    made = Made(loaded, resolved, booklet, pdfs, findings, binding)
    proved = prove_made(made)
    files = {**printed, **proof_files(made, proved)}
    lines = list(proof_lines(proved, loaded.source))
    if not proved.holds:
        _, print_file = pdfs
        del files[print_file]
        lines.append(f"{print_file} was not written: what the proof found would be printed")
    return _Proved(proved.holds, files, tuple(lines), proof_json(proved, loaded.source))


def schema(options: Namespace) -> Exit:  # noqa: ARG001 (every command takes its options)
    """Print the JSON Schema of the spec."""
    from booklet.kit.schema import json_schema

    print(json_text(json_schema()))
    return Exit.WELL


def new(options: Namespace) -> Exit:
    """Write a small commented spec that builds, where none is yet."""
    import shlex

    from booklet.cli.files import write_files
    from booklet.cli.starter import STARTER_NAME, STARTER_SPEC

    target = options.folder / STARTER_NAME
    if target.exists():
        raise UsageError(f"{target} is there already; it is left as it is")
    _tell_written(write_files(options.folder, {STARTER_NAME: STARTER_SPEC.encode()}), STARTER_NAME)
    print(f"Next: booklet make {shlex.quote(str(target))}")
    return Exit.WELL


def _load_and_resolve(options: Namespace) -> tuple[LoadedKit, ResolvedKit]:
    from booklet.placing.resolved import resolve_kit

    loaded = load_asked(options)
    with planning_progress(loaded.kit) as begun:
        return loaded, resolve_kit(loaded, begun=begun)


def _printed(
    resolved: ResolvedKit, booklet: LaidBooklet, stem: str, options: Namespace, printing: Printing, tell: Tell
) -> dict[str, bytes]:
    """The booklet to read and to print, and its tables, by the names of their files."""
    from booklet.binding.marks import black_marks, home_marks
    from booklet.cli.binding_options import print_files
    from booklet.cli.tables import sorting_csv, supplies_csv
    from booklet.pages.booklet import write_booklet

    tell("Drawing the pages")
    pdf = write_booklet(booklet, options.draft)
    tell("Arranging the pages for printing")
    named = _named(stem, options)
    return {
        f"{named}-read.pdf": pdf,
        **print_files(pdf, printing, named, black_marks if options.black else home_marks),
        f"{stem}-sorting.csv": sorting_csv(resolved),
        f"{stem}-supplies.csv": supplies_csv(resolved),
    }


def _named(stem: str, options: Namespace) -> str:
    """How the files to read and to print are named: those in black stand beside those in colour."""
    return f"{stem}-black" if options.black else stem


def _figure_files(booklet: LaidBooklet, stem: str) -> dict[str, bytes]:
    """Every figure that is drawn to a scale, by the name of its file."""
    from booklet.cli.files import file_names
    from booklet.drawing.writers.svg_writer import figure_svgs
    from booklet.pages.booklet import figures_of

    figures = figures_of(booklet)
    names = file_names(f"{stem}-{figure.name}" for figure in figures)
    return {
        f"{_FIGURES}/{name}.svg": svg.encode() for name, svg in zip(names, figure_svgs(figures), strict=True)
    }


def _tell_written(paths: Sequence[Path], stem: str) -> None:
    """Each file on a line, the figures together; and what lies with them but comes from an earlier run.

    That is left where it is: a folder may hold what the user put there.
    """
    figures = [path for path in paths if path.suffix == ".svg"]
    for path in paths:
        if path not in figures:
            print(path)
    if figures:
        folder = figures[0].parent
        print(f"{folder}: {len(figures)} figures")
        others = sorted(path.name for path in folder.glob(f"{stem}-*.svg") if path not in figures)
        if others:
            print(
                f"{folder} also holds figures that are not of this run: {', '.join(others)}", file=sys.stderr
            )
