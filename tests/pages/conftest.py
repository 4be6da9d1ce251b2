"""The booklets of the demo kits, made once for all tests."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import pytest

from booklet.binding.impose import Flip, print_at_home
from booklet.kit.bundled import bundled_kits
from booklet.kit.load import load_kit
from booklet.pages.booklet import Booklet, make_booklet
from booklet.placing.resolved import ResolvedKit, resolve_kit


@dataclass(frozen=True)
class Made:
    """A demo kit, its booklet in reading order, and the file for a home printer."""

    resolved: ResolvedKit
    booklet: Booklet
    pdf: bytes
    print_pdf: bytes


@cache
def made(name: str) -> Made:
    """The booklet of a demo kit."""
    resolved = resolve_kit(load_kit(bundled_kits()[name]))
    booklet = make_booklet(resolved)
    pdf = booklet.pdf()
    return Made(resolved, booklet, pdf, print_at_home(pdf, resolved.kit.page, Flip.SHORT_EDGE))


@pytest.fixture(params=sorted(bundled_kits()))
def demo(request: pytest.FixtureRequest) -> Made:
    """Each demo kit in turn."""
    return made(request.param)
