"""What `booklet template` does: print a piece or a layout at true size, to trace, check or lay things on."""

from __future__ import annotations

import argparse
import sys
from argparse import Namespace
from typing import TYPE_CHECKING

from booklet.cli.arguments import add_kit, add_out, add_paper, paper_of
from booklet.cli.asked import load_asked
from booklet.cli.exits import Exit
from booklet.cli.files import file_names
from booklet.cli.progress import planning_progress
from booklet.measure.dataclass import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable

    from booklet.content.templates import TemplateDocument
    from booklet.placing.resolved import ResolvedKit
    from booklet.sorting.ledger import LedgerEntry


def add_template(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    add_kit(parser)
    parser.add_argument(
        "name",
        metavar="NAME",
        help="a piece by name or by label, such as 3D, or a layout by id or title",
    )
    which = parser.add_mutually_exclusive_group()
    which.add_argument(
        "--piece", action="store_true", help="the piece of that name, where a layout has it too"
    )
    which.add_argument(
        "--layout", action="store_true", help="the layout of that name, where a piece has it too"
    )
    add_paper(parser)
    add_out(parser)


def template(options: Namespace) -> Exit:
    """Write the template of a piece or a layout; of a kit with errors nothing, for its sizes may be wrong."""
    from booklet.cli.report import has_errors, tell_findings
    from booklet.cli.written import write_set
    from booklet.content.templates import layout_document, piece_document
    from booklet.content.words.language import ENGLISH
    from booklet.pages.template_pages import write_templates
    from booklet.placing.resolved import resolve_kit
    from booklet.proof.findings import kit_findings

    loaded = load_asked(options)
    with planning_progress(loaded.kit) as begun:
        resolved = resolve_kit(loaded, begun=begun)
    findings = kit_findings(resolved)
    if has_errors(findings):
        ended = tell_findings(findings, loaded.source)
        print("Nothing was written: mend the errors first.", file=sys.stderr)
        return ended
    meant = find_meant(resolved, options.name, _wanted(options))
    document: TemplateDocument
    if meant.layout is not None:
        document = layout_document(resolved, meant.layout, ENGLISH)
    else:
        document = piece_document(resolved, meant.pieces, ENGLISH)
    (name,) = file_names([f"{loaded.source.stem}-template-{meant.name}"])
    paper = paper_of(options, resolved.kit.page)
    files = {f"{name}.pdf": write_templates(document, paper)}
    (written,) = write_set(options, loaded.source.stem, files)
    print(written)
    print(f"Print it on {paper.title} at 100 %, without fitting, on one side.")
    return tell_findings(findings, loaded.source)


@dataclass(frozen=True)
class Meant:
    """What a name means: pieces, or a layout by its index; and what its file is called by."""

    name: str
    pieces: tuple[LedgerEntry, ...] = ()
    layout: int | None = None


def find_meant(resolved: ResolvedKit, word: str, wanted: str | None = None) -> Meant:
    """The pieces or the layout that a word means; `wanted` says `piece` or `layout` where it means both.

    A part that scissors leave means the piece that it comes from.  Raises UsageError for a word that means
    nothing, or both.
    """
    from booklet.kit.errors import UsageError
    from booklet.kit.words import nearest, quoted

    pieces = _pieces(resolved, word) if wanted != "layout" else None
    layout = _layout(resolved, word) if wanted != "piece" else None
    if pieces and layout:
        both = f"{quoted(word)} is a piece and a layout of this kit"
        raise UsageError(f"{both}: say --piece or --layout")
    found = pieces or layout
    if found is None:
        near = nearest(word, _known(resolved, wanted))
        hint = f" (nearest: {near})" if near else ""
        raise UsageError(f"no {wanted or 'piece or layout'} of this kit is called {quoted(word)}{hint}")
    return found


def _wanted(options: Namespace) -> str | None:
    if options.piece:
        return "piece"
    return "layout" if options.layout else None


def _pieces(resolved: ResolvedKit, word: str) -> Meant | None:
    """Pieces by label, which means one, or by name, or by the name of a part of them."""
    from booklet.placing.resolved import parts_of

    entries = resolved.ledger.entries
    labelled = tuple(entry for entry in entries if entry.label and entry.label == word.upper())
    if labelled:
        return Meant(word.upper(), labelled)
    names = dict.fromkeys(entry.name for entry in entries)
    if (name := _as_typed(word, names)) is not None:
        return Meant(name, tuple(entry for entry in entries if entry.name == name))
    parted = [(entry, [part.name for part in parts_of(resolved, entry)]) for entry in entries]
    name = _as_typed(word, dict.fromkeys(part for _, parts in parted for part in parts))
    named = tuple(entry for entry, parts in parted if name in parts)
    return Meant(name, named) if name is not None else None


def _as_typed(word: str, names: Iterable[str]) -> str | None:
    """The name that is the word, else the first that is it but for capitals: sentences begin with names."""
    known = list(names)
    alike = (name for name in known if name.casefold() == word.casefold())
    return word if word in known else next(alike, None)


def _layout(resolved: ResolvedKit, word: str) -> Meant | None:
    """A layout by its id, else the first of that title."""
    from booklet.kit.kit import layout_title

    layouts = resolved.kit.layouts
    ids, titles = [layout.id for layout in layouts], [layout_title(layout) for layout in layouts]
    found = ((_as_typed(word, names), names) for names in (ids, titles))
    index = next((names.index(name) for name, names in found if name is not None), None)
    return None if index is None else Meant(layouts[index].id, layout=index)


def _known(resolved: ResolvedKit, wanted: str | None) -> list[str]:
    """All words that mean something, of the kind that is wanted."""
    from booklet.kit.kit import layout_title

    entries, layouts = resolved.ledger.entries, resolved.kit.layouts
    pieces = [said for entry in entries for said in (entry.name, entry.label) if said]
    titles = [said for layout in layouts for said in (layout.id, layout_title(layout))]
    return list(
        dict.fromkeys([*(pieces if wanted != "layout" else ()), *(titles if wanted != "piece" else ())])
    )
