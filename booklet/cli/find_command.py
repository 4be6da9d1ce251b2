"""What `booklet find` does: say on which page a thing is that a member asks for; write an index of all."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from booklet.cli.arguments import add_out, add_source
from booklet.cli.exits import Exit
from booklet.cli.json_text import json_text
from booklet.cli.look_up import folded, look_up, nearest_names
from booklet.cli.page_words import page_numbers
from booklet.cli.progress import planning, progress
from booklet.cli.source_kit import lay_out_again, open_source
from booklet.kit.errors import UsageError
from booklet.kit.words import quoted, shown

if TYPE_CHECKING:
    from booklet.content.things import KitThing
    from booklet.kit.kit import Kit
    from booklet.pages.booklet import LaidBooklet


def add_find(parser: ArgumentParser) -> None:
    """Declare what is looked for."""
    add_source(parser)
    parser.add_argument(
        "words", nargs="*", default=[], metavar="WORDS", help="a name or part of one, or a label such as 3D"
    )
    parser.add_argument(
        "--index", action="store_true", help="write KIT-index.pdf: all things with their pages"
    )
    parser.add_argument("--json", action="store_true", help="print what was found as JSON")
    add_out(parser)


def find(options: Namespace) -> Exit:
    """Print the things that are meant, a line each, the best first; or write the index of all."""
    from booklet.cli.written import write_set
    from booklet.pages.things import things_of
    from booklet.placing.resolved import resolve_kit

    asked = " ".join(options.words)
    if not (asked or options.index):
        raise UsageError("say what to look for, or --index for an index of everything")
    if asked and not folded(asked):
        raise UsageError(f"{quoted(asked)} has no letter and no figure: expected a name or part of one")
    with progress() as tell:
        source = open_source(options)
        resolved = resolve_kit(source.loaded, begun=planning(tell))
        tell("Laying out the pages")
        laid = lay_out_again(source, resolved)
        things = things_of(resolved, laid)
    if source.given is not None and source.given.kit.edition.name != laid.edition:
        print(f"{source.given.name} was made by another version: its pages may be others", file=sys.stderr)
    if options.index:
        stem = source.loaded.source.stem
        files = {f"{stem}-index.pdf": _index(resolved.kit, laid, things)}
        (written,) = write_set(options, stem, files, laid.edition)
        print(written)
    return _tell(things, asked, is_json=options.json) if asked else Exit.WELL


def _index(kit: Kit, laid: LaidBooklet, things: Sequence[KitThing]) -> bytes:
    """The index, in the order of the alphabet."""
    from booklet.content.index import index_document
    from booklet.content.words.language import ENGLISH
    from booklet.drawing.shapes.figure import Colour
    from booklet.pages.report import write_report

    ordered = sorted(things, key=lambda thing: (folded(_called(thing)), thing.kind.value, thing.labels))
    document = index_document(kit, laid.edition, len(laid.pages), ordered, ENGLISH)
    return write_report(document, kit.page, Colour(kit.accent))


def _called(thing: KitThing) -> str:
    from booklet.content.things import ThingKind

    return f"pocket {thing.name.text}" if thing.kind is ThingKind.POCKET else thing.name.text


def _tell(things: Sequence[KitThing], asked: str, *, is_json: bool) -> Exit:

    found = look_up(things, asked)
    if is_json:
        near = [] if found else nearest_names(things, asked)
        report = {"found": [_thing_json(thing) for thing in found], "nearest": list(near)}
        print(json_text(report))
    elif found:
        print("\n".join(map(told, found)))
    else:
        near = ", ".join(map(shown, nearest_names(things, asked)))
        print(f"nothing is called {quoted(asked)}; the nearest names: {near or 'none'}")
    return Exit.WELL if found else Exit.KIT_WRONG


def told(thing: KitThing) -> str:
    """A thing in a line: `pages 12, 22, 30  3B  piece edge strip: cut on 12, sorted on 22, used on 30`."""
    kinds = (("cut", thing.cut), ("sorted", thing.sorted), ("used", thing.used))
    parts = ", ".join(f"{what} on {_numbers(pages)}" for what, pages in kinds if pages)
    labels = f"{', '.join(thing.labels)}  " if thing.labels else ""
    where = page_numbers(thing.pages) if thing.pages else "no page"
    return f"{where}  {labels}{thing.kind.value} {shown(thing.name.text)}" + (f": {parts}" if parts else "")


def _numbers(pages: Sequence[int]) -> str:
    return ", ".join(map(str, pages))


def _thing_json(thing: KitThing) -> dict[str, Any]:
    return {
        "kind": thing.kind.value,
        "name": thing.name.text,
        "labels": list(thing.labels),
        "pages": list(thing.pages),
        "cut": list(thing.cut),
        "sorted": list(thing.sorted),
        "used": list(thing.used),
    }
