"""Templates of the demos and of small kits, made once."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from booklet.cli.template_command import find_meant
from booklet.content.templates import layout_document, piece_document
from booklet.content.words.language import ENGLISH
from booklet.kit.bundled import find_spec
from booklet.kit.load import load_kit, parse_kit
from booklet.pages.office_paper import OfficePaper
from booklet.pages.template_pages import write_templates
from booklet.placing.resolved import ResolvedKit, resolve_kit
from tests.finished.kits import LONG_NAMES
from tests.templates.joined import Page, read_pages
from tests.templates.tricky import TRICKY

HILL_LINE, ROOF_GARDEN = "hill-line", "roof-garden"
ODD, LONG = "odd corners", "long names"
_SMALL = {ODD: TRICKY, LONG: LONG_NAMES}


@lru_cache
def resolved(kit: str) -> ResolvedKit:
    if kit in _SMALL:
        return resolve_kit(parse_kit(_SMALL[kit], f"{kit}.yaml", Path()))
    return resolve_kit(load_kit(find_spec(kit)))


@lru_cache
def template(kit: str, name: str, paper: OfficePaper = OfficePaper.LETTER) -> bytes:
    meant = find_meant(resolved(kit), name)
    if meant.layout is not None:
        return write_templates(layout_document(resolved(kit), meant.layout, ENGLISH), paper)
    return write_templates(piece_document(resolved(kit), meant.pieces, ENGLISH), paper)


@lru_cache
def pages(kit: str, name: str, paper: OfficePaper = OfficePaper.LETTER) -> tuple[Page, ...]:
    return tuple(read_pages(template(kit, name, paper)))
