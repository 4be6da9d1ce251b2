"""Companions of the demo kits, made once for all tests that look at them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from booklet.content.blocks import Document
from booklet.content.document import document
from booklet.content.words.language import ENGLISH
from booklet.kit.bundled import find_spec
from booklet.kit.load import load_kit
from booklet.placing.resolved import ResolvedKit, resolve_kit
from booklet.web.companion import Companion, make_companion
from tests.web.reading import Page, read_page


@dataclass(frozen=True, eq=False)
class Made:
    """A kit, what its booklet says, and its companion."""

    resolved: ResolvedKit
    said: Document
    companion: Companion
    page: Page


@cache
def made(kit: str) -> Made:
    resolved = resolve_kit(load_kit(find_spec(kit)))
    companion = make_companion(resolved)
    return Made(resolved, document(resolved, ENGLISH), companion, read_page(companion.html))
