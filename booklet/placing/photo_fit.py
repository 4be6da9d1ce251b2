"""The size of a photograph that follows from the mat that holds it."""

from __future__ import annotations

from booklet.kit.finding import SpecPath, error
from booklet.kit.steps import Photo
from booklet.measure.length import Size
from booklet.measure.words import exact_size
from booklet.placing.prints import largest_within
from booklet.placing.state import PlacingState, find


def fitting_size(state: PlacingState, step: Photo, path: SpecPath) -> Size | None:
    """The size, as it lies on the page, of a photograph that fits what it lies on.

    With a stated border it is what the border leaves; else the largest usual print that the mat holds.
    """
    if step.on is None:
        cure = "say on: the mat that holds it, or a size such as 4 x 6"
        state.findings.append(error("photo-fits-nothing", (*path, "photo"), "fits, but on nothing", cure))
        return None
    mat = find(state, step.on, (*path, "on"))
    if mat is None:
        return None
    if step.border is None:
        size = largest_within(mat.rect.size, state.kit.unit)
    else:
        across, down = step.border
        width, height = mat.rect.width - 2 * across, mat.rect.height - 2 * down
        size = Size(width, height) if width > 0 and height > 0 else None
    if size is None:
        found = f"no photograph fits on {exact_size(mat.rect.size, state.kit.unit)} here"
        cure = "take a larger mat or a smaller border, or state a size"
        state.findings.append(error("photo-fits-nothing", (*path, "photo"), found, cure))
    return size
