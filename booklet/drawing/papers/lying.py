"""How a part of a sheet's face comes to lie: the map from the face seen upright to the part in the hand."""

from __future__ import annotations

from booklet.cutting.orientation import Orientation
from booklet.drawing.shapes.affine import Affine, Box, compose, rotation, scaling, translation
from booklet.drawing.shapes.scale import Scale
from booklet.kit.fields import Face
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size, Unit


def lie(part: ExactRect, whole: Size, lying: Orientation, unit: Unit, scale: Scale) -> Affine:
    """The map from a face at full size, seen upright in points, to the part as it lies, its corner at (0, 0).

    A sheet's back is seen as when it is turned over like a page: what is at the front's left is at its right.
    """
    seen = on_face(part, whole, lying.face, unit)
    back_to_corner = {
        0: (0.0, 0.0),
        1: (seen.height, 0.0),
        2: (seen.width, seen.height),
        3: (0.0, seen.width),
    }[lying.quarters]
    return compose(
        translation(-seen.left, -seen.top),
        rotation(90 * lying.quarters),
        translation(*back_to_corner),
        scaling(float(1 / scale.reduction)),
    )


def on_face(part: ExactRect, whole: Size, face: Face, unit: Unit) -> Box:
    """Where a part of the front lies on a face, in points at full size."""
    points = float(unit.points)
    left = part.x if face is Face.FRONT else whole.width - part.right
    return Box(
        float(left) * points,
        float(part.y) * points,
        float(left + part.width) * points,
        float(part.bottom) * points,
    )
