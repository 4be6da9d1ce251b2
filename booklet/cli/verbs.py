"""The commands and their arguments.  Each is declared, and what it does imported, when it is typed."""

from __future__ import annotations

from argparse import ArgumentParser
from collections.abc import Callable
from functools import partial
from pathlib import Path

from booklet.cli.arguments import add_kit, add_kits, add_out, add_strict
from booklet.cli.verb_parser import VerbParser


def add_verbs(program: ArgumentParser) -> None:
    """Add every command to the parser of the program: its name, and its line in the help."""
    verbs = program.add_subparsers(title="commands", metavar="COMMAND", parser_class=VerbParser)
    for name, (declare, said) in _VERBS.items():
        verbs.add_parser(name, help=said, declare=declare)
    said = "print what lets a shell complete what is typed"
    verbs.add_parser("complete", help=said, declare=partial(_complete, program))


def _new(new: VerbParser) -> None:
    from booklet.cli.commands import new as command

    new.add_argument("folder", type=Path, metavar="DIR", help="where to write it")
    new.set_defaults(command=command)


def _check(check: VerbParser) -> None:
    from booklet.cli.commands import check as command

    add_kit(check)
    check.add_argument("--json", action="store_true", help="print the findings as JSON")
    check.add_argument("--sheets", action="store_true", help="only the sheets: cuts, pieces and their sums")
    add_strict(check)
    check.set_defaults(command=command)


def _draw(draw: VerbParser) -> None:
    from booklet.cli.commands import draw as command

    add_kit(draw)
    add_out(draw)
    draw.set_defaults(command=command)


def _make(make: VerbParser) -> None:
    from booklet.cli.binding_options import add_printing
    from booklet.cli.several import add_several, make_kits

    add_kits(make)
    add_out(make)
    add_several(make)
    how = make.add_mutually_exclusive_group()
    how.add_argument("--draft", action="store_true", help="make it in spite of errors, marked DRAFT")
    how.add_argument("--proof", action="store_true", help="prove it too; what does not hold is not printed")
    make.add_argument("--json", action="store_true", help="print what was written and found as JSON")
    add_strict(make)
    make.add_argument(
        "--black",
        action="store_true",
        help="in one ink, for an office printer: KIT-black-read.pdf and KIT-black-print.pdf in the place of "
        "the files in colour and the figures",
    )
    add_printing(make)
    make.set_defaults(command=make_kits)


def _plan(plan: VerbParser) -> None:
    from booklet.cli.plan_commands import plan as command
    from booklet.cli.review_command import price

    add_kit(plan)
    what = plan.add_mutually_exclusive_group()
    what.add_argument("--all", action="store_true", help="find cuts for sheets with written cuts, too")
    what.add_argument("--review", action="store_true", help="compare written cuts with the best found")
    what.add_argument(
        "--together", action="store_true", help="share pieces out over all sheets of a paper that say plan"
    )
    what.add_argument("--write", action="store_true", help="put the cuts into the file, where it says plan")
    plan.add_argument(
        "--price",
        type=price,
        metavar="P",
        help="of one sheet: --review tells what the saved paper is worth in a thousand kits",
    )
    plan.set_defaults(command=command)


def _rescue(rescue: VerbParser) -> None:
    from booklet.cli.rescue_command import rescue as command

    add_kit(rescue)
    rescue.add_argument(
        "--spoiled",
        nargs="+",
        required=True,
        metavar="PIECE",
        help="pieces by label, such as 3D, or by name; say a name twice for two of them",
    )
    rescue.set_defaults(command=command)


def _proof(proof: VerbParser) -> None:
    from booklet.cli.binding_options import add_binding
    from booklet.cli.proof_command import proof as command

    add_kit(proof)
    add_out(proof)
    proof.add_argument("--file", type=Path, metavar="PDF", help="a finished reading file, made before")
    proof.add_argument(
        "--print", type=Path, metavar="PDF", dest="print_file", help="a finished print file, made before"
    )
    proof.add_argument(
        "--against", type=Path, metavar="CSV", help="the claims of an earlier edition: say what has changed"
    )
    proof.add_argument("--json", action="store_true", help="print what was found as JSON")
    add_binding(proof)
    proof.set_defaults(command=command)


def _press(press: VerbParser) -> None:
    from booklet.cli.press_command import add_press
    from booklet.cli.press_command import press as command

    add_press(press)
    press.set_defaults(command=command)


def _find(find: VerbParser) -> None:
    from booklet.cli.find_command import add_find
    from booklet.cli.find_command import find as command

    add_find(find)
    find.set_defaults(command=command)


def _reprint(reprint: VerbParser) -> None:
    from booklet.cli.reprint_command import add_reprint
    from booklet.cli.reprint_command import reprint as command

    add_reprint(reprint)
    reprint.set_defaults(command=command)


def _template(template: VerbParser) -> None:
    from booklet.cli.template_command import add_template
    from booklet.cli.template_command import template as command

    add_template(template)
    template.set_defaults(command=command)


def _web(web: VerbParser) -> None:
    from booklet.cli.web_command import add_web
    from booklet.cli.web_command import web as command

    add_web(web)
    web.set_defaults(command=command)


def _view(view: VerbParser) -> None:
    from booklet.cli.view_command import add_view
    from booklet.cli.view_command import view as command

    add_view(view)
    view.set_defaults(command=command)


def _schema(schema: VerbParser) -> None:
    from booklet.cli.commands import schema as command

    schema.set_defaults(command=command)


def _complete(program: ArgumentParser, verb: VerbParser) -> None:
    from booklet.cli.complete_command import add_complete
    from booklet.cli.complete_command import complete as command

    add_complete(verb)
    verb.set_defaults(command=partial(command, program))


_VERBS: dict[str, tuple[Callable[[VerbParser], None], str]] = {
    "new": (_new, "start a kit: write a small commented spec that builds"),
    "check": (_check, "check a kit: cuts, pieces, pockets, layouts, supplies"),
    "draw": (_draw, "draw every figure as SVG"),
    "make": (_make, "make the booklet: PDFs to read and to print, figures, tables"),
    "plan": (_plan, "find the cuts of sheets that say `cuts: plan`, ready to paste"),
    "rescue": (_rescue, "say how spoiled pieces can be cut again from what is left"),
    "press": (_press, "write the booklet for a print shop: PDF/X-1a with bleed and marks"),
    "proof": (_proof, "read the finished booklet back and prove every number on it"),
    "find": (_find, "say on which pages a thing is, or write an index of all"),
    "reprint": (_reprint, "print a lost page again from its reading file"),
    "template": (_template, "print a piece or a layout at true size"),
    "web": (_web, "write the companion: the booklet for a tablet, as one file"),
    "view": (_view, "show the booklet in a browser, anew at each save of the spec"),
    "schema": (_schema, "print the JSON Schema of the spec, for editors"),
}
