"""Templates of the demos, made once."""

from __future__ import annotations

from functools import lru_cache

from booklet.cli.template_command import find_meant
from booklet.content.templates import layout_document, piece_document
from booklet.content.words.language import ENGLISH
from booklet.kit.bundled import find_spec
from booklet.kit.load import load_kit
from booklet.pages.template_pages import write_templates
from booklet.pages.tiles import OfficePaper
from booklet.placing.resolved import ResolvedKit, resolve_kit
from tests.templates.joined import Page, read_pages

HILL_LINE, ROOF_GARDEN = "hill-line", "roof-garden"


@lru_cache
def resolved(kit: str) -> ResolvedKit:
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
