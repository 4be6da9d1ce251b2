"""Where on a page a thing of the spec is shown."""

from __future__ import annotations

from booklet.kit.finding import SpecPath
from booklet.measure.dataclass import dataclass


@dataclass(frozen=True)
class Place:
    """A part of a page, in parts of its width and height, and what of the spec it shows."""

    part: tuple[float, float, float, float]
    path: SpecPath
