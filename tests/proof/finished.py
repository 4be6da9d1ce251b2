"""Booklets with what they claim, and their files read back, each made once in a run."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from booklet.binding.binding import home_binding
from booklet.binding.lay import impose
from booklet.binding.print_file import both_sides
from booklet.kit.bundled import find_spec
from booklet.kit.load import load_kit, parse_kit
from booklet.pages.booklet import LaidBooklet
from booklet.placing.resolved import ResolvedKit, resolve_kit
from booklet.proof.claim import Claim
from booklet.proof.claims import claims
from booklet.proof.measured import Shown, shown_figures
from booklet.proof.printed import Page
from booklet.proof.proof import Expected
from tests.once import laid_once, read_once, written_once
from tests.spec_data import SPECS


@dataclass(frozen=True)
class Finished:
    """What a booklet claims and shows, its file read back, and all of it as it was before."""

    claims: tuple[Claim, ...]
    figures: tuple[Shown, ...]
    pages: tuple[Page, ...]
    resolved: ResolvedKit
    laid: LaidBooklet
    file: bytes

    @property
    def expected(self) -> Expected:
        """What its files are to show."""
        sides = both_sides(impose(len(self.laid.pages), home_binding(self.resolved.kit.page)))
        return Expected(self.resolved, self.claims, self.figures, (), tuple(sides))


@cache
def finished(spec: str) -> Finished:
    """The booklet of a demo kit by its name, or of a spec by its text."""
    loaded = parse_kit(spec, "plain.yaml", SPECS) if "\n" in spec else load_kit(find_spec(spec))
    resolved = resolve_kit(loaded)
    laid = laid_once(resolved)
    file = written_once(laid)
    figures = shown_figures(laid)
    claimed = claims(laid, resolved, loaded.source.words)
    return Finished(claimed, figures, read_once(file).pages, resolved, laid, file)
