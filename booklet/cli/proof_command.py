"""What `booklet proof` does: read the finished booklet back, and hold every number against the kit."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

from booklet.cli.asked import load_asked
from booklet.cli.binding_options import binding_of
from booklet.cli.claims_table import claims_csv, edition_of, read_edition, said
from booklet.cli.exits import Exit
from booklet.cli.json_text import json_text
from booklet.cli.progress import planning, progress
from booklet.cli.proof_lines import change_lines, proof_json, proof_lines, wrong_lines
from booklet.kit.errors import UsageError
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.fork import run_in_fork

if TYPE_CHECKING:
    from booklet.binding.binding import Binding
    from booklet.kit.finding import Finding
    from booklet.kit.load import LoadedKit
    from booklet.pages.booklet import LaidBooklet
    from booklet.placing.resolved import ResolvedKit
    from booklet.proof.editions import Edition
    from booklet.proof.given_file import Wanted
    from booklet.proof.proof import Proof

# Specs, by which an earlier edition may be given as well as by its table.
_SPECS = {".yaml", ".yml"}


@dataclass(frozen=True)
class Made:
    """A kit with its booklet, laid out, the finished files by their names, the one to read first, and what
    there is to say of the kit, and how it is bound.
    """

    loaded: LoadedKit
    resolved: ResolvedKit
    laid: LaidBooklet
    files: Mapping[str, bytes]
    findings: Sequence[Finding]
    binding: Binding


def proof(options: Namespace) -> Exit:
    """Print what of the booklet is not as it is to be; write the sheet to sign and the table of numbers."""
    from booklet.cli.written import stale_files, stale_lines, write_set
    from booklet.pages.booklet import make_booklet
    from booklet.placing.resolved import resolve_kit
    from booklet.proof.editions import compare
    from booklet.proof.findings import kit_findings

    with progress() as tell:
        earlier = _earlier(options.against) if options.against else None
        loaded = load_asked(options)
        resolved = resolve_kit(loaded, begun=planning(tell))
        laid = make_booklet(resolved)
        binding = binding_of(options, loaded.kit.page)
        files = _files(options, loaded, laid, binding)
        made = Made(loaded, resolved, laid, files, kit_findings(resolved), binding)
        tell("Reading the pages back")
        proved = prove_made(made)
        written = proof_files(made, proved)
    changes = compare(earlier, edition_of(proved)) if earlier else None
    paths = write_set(options, loaded.source.stem, written, laid.edition)
    stale = stale_files(options.out, loaded.source.stem, laid.edition)
    if options.json:
        told = proof_json(proved, loaded.source) | ({"changes": asdict(changes)} if changes else {})
        print(json_text(told | {"stale": {name: why.value for name, why in stale.items()}}))
    else:
        lines = (
            *stale_lines(options.out, stale),
            *change_lines(changes),
            *proof_lines(proved, loaded.source),
        )
        print("\n".join((*map(str, paths), *lines)))
    return Exit.WELL if proved.holds else Exit.KIT_WRONG


def prove_made(made: Made) -> Proof:
    """Prove the finished files of a booklet."""
    from booklet.proof.proof import expected_of, prove

    reading, *printed = made.files.values()
    expected = expected_of(made.laid, made.resolved, made.loaded.source.words, made.binding)
    return prove(expected, reading, printed[0] if printed else None, run_in_fork)


def proof_files(made: Made, proved: Proof) -> dict[str, bytes]:
    """The sheet to sign, as a PDF and as HTML, and the table of all numbers, by the names of their files."""
    from booklet.content.words.language import ENGLISH
    from booklet.drawing.shapes.figure import Colour
    from booklet.pages.report import write_report
    from booklet.proof.sign import sign_report
    from booklet.proof.sign_document import Told, sign_document
    from booklet.proof.sign_html import sign_html

    kit, source = made.resolved.kit, made.loaded.source
    report = sign_report(made.resolved, proved, made.findings, made.files)
    told = Told(made.laid.edition, list(wrong_lines(proved, source)))
    document = sign_document(made.resolved, report, told, source, ENGLISH)
    return {
        f"{source.stem}-proof.pdf": write_report(document, kit.page, Colour(kit.accent)),
        f"{source.stem}-proof.html": sign_html(document, proved, source, ENGLISH),
        f"{source.stem}-claims.csv": claims_csv(proved, source),
    }


def _files(options: Namespace, loaded: LoadedKit, laid: LaidBooklet, binding: Binding) -> dict[str, bytes]:
    """The files to prove: those that are given, else those that the kit makes."""
    from booklet.binding.lay import impose
    from booklet.binding.print_file import both_sides, print_file
    from booklet.content.spans import plain_text
    from booklet.pages.booklet import write_booklet
    from booklet.proof.given_file import Wanted

    wanted = Wanted(plain_text(laid.setup.document.title), laid.edition, len(laid.pages), "page")
    sides = replace(wanted, leaves=len(both_sides(impose(len(laid.pages), binding))), leaf="side")
    reading = _opened(options.file, wanted) if options.file else write_booklet(laid)
    files = {options.file.name if options.file else f"{loaded.source.stem}-read.pdf": reading}
    if options.print_file:
        files[options.print_file.name] = _opened(options.print_file, sides)
    elif not options.file:
        files[f"{loaded.source.stem}-print.pdf"] = print_file(reading, binding)
    return files


def _opened(file: Path, wanted: Wanted) -> bytes:
    """A finished file of the booklet.  Raises UsageError for what is not that."""
    from booklet.proof.given_file import check_given

    try:
        data = file.read_bytes()
    except OSError as error:
        raise UsageError(f"cannot read {file.name}: {error.strerror}") from None
    check_given(file.name, data, wanted)
    return data


def _earlier(file: Path) -> Edition:
    """An earlier edition, by its table of numbers or by its spec.  Raises UsageError for what is neither."""
    return _edition_of_spec(file) if file.suffix in _SPECS else read_edition(file)


def _edition_of_spec(file: Path) -> Edition:
    from booklet.kit.load import load_kit
    from booklet.pages.booklet import make_booklet, write_booklet
    from booklet.placing.resolved import resolve_kit
    from booklet.proof.claims import claims
    from booklet.proof.editions import Edition
    from booklet.proof.pictures import page_pictures

    loaded = load_kit(file)
    resolved = resolve_kit(loaded)
    laid = make_booklet(resolved)
    claimed = claims(laid, resolved, loaded.source.words)
    texts = {claim.key: said(claim) for claim in claimed if claim.has_number}
    return Edition(texts, [picture.digest for picture in page_pictures(write_booklet(laid))])
