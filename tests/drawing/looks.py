"""Kits worked out for a drawing of their layouts, and what the pixels of such a drawing are."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from pathlib import Path

import numpy as np
import pypdfium2
from numpy.typing import NDArray

from booklet.drawing.layouts.look import Look
from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.shapes.figure import Figure, Shape
from booklet.drawing.shapes.scale import Scale
from booklet.kit.kit import Kit
from booklet.kit.load import LoadedKit
from booklet.kit.source import Source
from booklet.placing.resolved import ResolvedKit, resolve_kit
from tests.drawing.rasters import figure_pdf

Pixels = NDArray[np.uint8]

SIXTH = Scale(Fraction(6))  # an inch is 12 pt


def resolved_kit(kit: Kit, folder: Path = Path()) -> ResolvedKit:
    """A kit that was built in a test, worked out; `folder` holds its images."""
    return resolve_kit(LoadedKit(kit, Source("kit.yaml", None, ()), folder))


def look_of(
    resolved: ResolvedKit, index: int = 0, scale: Scale = SIXTH, papers: KitPapers | None = None
) -> Look:
    """What a layout of the kit is drawn from."""
    return Look(resolved.layouts[index], resolved, papers or KitPapers(resolved.kit, resolved.images), scale)


def colours(shapes: Iterable[Shape], width: float, height: float, dots_per_point: float = 4.0) -> Pixels:
    """The shapes on a white page of this size in points: rows from the top, red, green and blue."""
    figure = Figure("test", width, height, tuple(shapes), "", "")
    page = pypdfium2.PdfDocument(figure_pdf(figure))[0]
    pixels: Pixels = np.asarray(page.render(scale=dots_per_point).to_pil().convert("RGB"))
    return pixels
