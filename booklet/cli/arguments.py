"""The arguments that several commands take, each declared once."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from booklet.kit.kit import PageFormat
    from booklet.pages.office_paper import OfficePaper


def add_kit(parser: ArgumentParser) -> None:
    """Declare the kit, and whose trimmer it is for."""
    parser.add_argument(
        "kit", metavar="KIT", help="a kit spec, the folder of a kit.yaml, or the name of a demo kit"
    )
    _add_trimmer(parser)


def add_kits(parser: ArgumentParser) -> None:
    """Declare one kit or several, and whose trimmer they are for."""
    parser.add_argument(
        "kits",
        nargs="+",
        metavar="KIT",
        help="a kit spec, the folder of a kit.yaml, or the name of a demo kit; or several",
    )
    _add_trimmer(parser)


def add_source(parser: ArgumentParser) -> None:
    """Declare the kit, which may be a reading file, and whose trimmer a spec is for."""
    parser.add_argument(
        "kit", metavar="SOURCE", help="a reading file (KIT-read.pdf), a kit spec, or the name of a demo kit"
    )
    _add_trimmer(parser)


def _add_trimmer(parser: ArgumentParser) -> None:
    whose = parser.add_mutually_exclusive_group()
    whose.add_argument(
        "--trimmer", type=Path, metavar="FILE", help="make it for the trimmer that this file describes"
    )
    whose.add_argument(
        "--kit-trimmer",
        action="store_true",
        help="keep to the kit's trimmer, though there is one of your own",
    )


def add_out(parser: ArgumentParser) -> None:
    """Declare the folder that is written to, and whether files of others in it may be replaced."""
    parser.add_argument(
        "--out", type=Path, default=Path("out"), metavar="DIR", help="where to write (default: out)"
    )
    parser.add_argument(
        "--replace",
        action="store_true",
        help="replace files there that this program did not write, or that were changed since",
    )


def add_strict(parser: ArgumentParser) -> None:
    """Declare that warnings may be taken for errors."""
    parser.add_argument("--strict", action="store_true", help="take warnings for errors, in a build script")


def add_paper(parser: ArgumentParser) -> None:
    """Declare the paper of an office printer."""
    parser.add_argument(
        "--paper",
        choices=["letter", "a4"],
        help="the paper to print on (default: what goes with the kit's page)",
    )


def paper_of(options: Namespace, page: PageFormat) -> OfficePaper:
    """The paper that is asked for, else the one that goes with the kit's page."""
    from booklet.pages.office_paper import OfficePaper, usual_paper

    return OfficePaper(options.paper) if options.paper is not None else usual_paper(page)
