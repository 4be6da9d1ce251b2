"""Draw the picture papers of the demo kits: `python kit_specs/draw_images.py`.

One picture so far: `hill-line.jpg`, the hill paper of `hill-line.yaml`, 12 x 12 in at 150 dpi, sRGB.  A dawn
sky runs down through six ridges, each one darker and nearer, in the manner of a watercolour: every ridge
is a wash that pools along its upper edge and fades into mist below, over paper grain.  Everything repeats
across the width, so that two sheets laid side by side join without a seam.  The same bytes come out of
each run with the same Pillow: the grain is drawn from a small generator of our own.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

from PIL import Image, ImageChops, ImageDraw, ImageFilter

INCHES = 12
DPI = 150
SIDE = INCHES * DPI
TURN = 2 * math.pi
RGB = tuple[int, int, int]

# From the top edge down: dusk blue, mist, cream, then the glow that the ridges stand against.
SKY: tuple[tuple[float, RGB], ...] = (
    (0.00, (111, 146, 166)),
    (0.20, (158, 185, 193)),
    (0.34, (214, 217, 205)),
    (0.44, (245, 226, 193)),
    (0.53, (241, 199, 148)),
    (0.60, (233, 181, 136)),
    (1.00, (228, 168, 126)),
)

# One ridge: height of its crest, its waves (how many across the sheet, how high, where they start),
# its colour at the crest and in the mist at its foot.  Heights are shares of the sheet.
Waves = tuple[tuple[int, float, float], ...]
RIDGES: tuple[tuple[float, Waves, RGB, RGB], ...] = (
    (0.605, ((2, 0.018, 0.4), (5, 0.009, 1.9), (11, 0.004, 0.7)), (176, 176, 178), (228, 190, 155)),
    (0.655, ((1, 0.024, 2.6), (3, 0.015, 0.2), (8, 0.006, 2.2)), (138, 157, 168), (209, 190, 168)),
    (0.715, ((2, 0.026, 5.1), (5, 0.010, 3.3), (13, 0.003, 1.0)), (104, 136, 148), (176, 187, 177)),
    (0.785, ((1, 0.030, 0.9), (4, 0.013, 4.4), (9, 0.005, 5.0)), (78, 117, 118), (139, 165, 146)),
    (0.865, ((2, 0.022, 3.5), (3, 0.017, 1.2), (10, 0.004, 2.9)), (55, 98, 88), (104, 140, 112)),
    (0.945, ((1, 0.026, 4.2), (4, 0.010, 0.6), (7, 0.005, 1.7)), (37, 74, 66), (52, 92, 74)),
)
FIRST_WOODED = 3  # Ridges from here on are near enough to show single firs.


def numbers(seed: int) -> Iterator[int]:
    """Bytes without end from a linear congruential generator (modulus 2^32; from memory, a common one)."""
    state = seed
    while True:
        state = (state * 1664525 + 1013904223) % 2**32
        yield state >> 24


def grain(across: int, down: int, seed: int) -> Image.Image:
    """Soft grey blotches, so many across the sheet and down it, joining left to right."""
    source = numbers(seed)
    small = Image.frombytes("L", (across, down), bytes(next(source) for _ in range(across * down)))
    wide = Image.new("L", (3 * across, down))
    for copy in range(3):
        wide.paste(small, (copy * across, 0))
    large = wide.resize((3 * SIDE, SIDE), Image.Resampling.BICUBIC)
    return large.crop((SIDE, 0, 2 * SIDE, SIDE))


def colour_between(stops: tuple[tuple[float, RGB], ...], at: float) -> RGB:
    """The colour at a share of the way through `stops`, mixed from the two around it."""
    for (start, first), (end, second) in pairwise(stops):
        if at <= end:
            share = (at - start) / (end - start)
            red, green, blue = (round(a + (b - a) * share) for a, b in zip(first, second, strict=True))
            return red, green, blue
    return stops[-1][1]


def wash(stops: tuple[tuple[float, RGB], ...]) -> Image.Image:
    """A sheet whose colour changes from top to bottom only."""
    column = Image.new("RGB", (1, SIDE))
    for y in range(SIDE):
        column.putpixel((0, y), colour_between(stops, y / SIDE))
    return column.resize((SIDE, SIDE), Image.Resampling.NEAREST)


def crest(height: float, waves: Waves, x: int) -> float:
    """How far below the sheet's top edge a ridge's crest lies at `x`, in pixels."""
    rise = sum(size * math.sin(TURN * count * x / SIDE + start) for count, size, start in waves)
    return SIDE * (height - rise)


def firs(height: float, waves: Waves, near: int) -> Iterator[list[tuple[float, float]]]:
    """The outlines of the firs along a crest, wider and taller the nearer the ridge is."""
    source = numbers(29 + near)
    tall = 9 + 8 * near
    x = 0
    while x < SIDE:
        size = tall * (0.55 + next(source) / 400)
        foot = crest(height, waves, x) + size * 0.25
        for copy in (-SIDE, 0, SIDE):
            yield [(x + copy - size * 0.28, foot), (x + copy, foot - size), (x + copy + size * 0.28, foot)]
        # Firs stand in clumps: mostly shoulder to shoulder, now and then a clearing.
        gap = next(source)
        x += round(tall * (0.25 + gap / 500 if gap > 50 else 2.5 + gap / 12))


def silhouette(index: int) -> Image.Image:
    """White where the ridge is, black above it."""
    height, waves, _, _ = RIDGES[index]
    mask = Image.new("L", (SIDE, SIDE), 0)
    draw = ImageDraw.Draw(mask)
    outline: list[tuple[float, float]] = [(x, crest(height, waves, x)) for x in range(SIDE + 1)]
    draw.polygon([*outline, (SIDE, SIDE), (0, SIDE)], fill=255)
    if index >= FIRST_WOODED:
        for tree in firs(height, waves, index - FIRST_WOODED + 1):
            draw.polygon(tree, fill=255)
    return mask.filter(ImageFilter.GaussianBlur(1.1))


def pooled(mask: Image.Image) -> Image.Image:
    """Where a wash has dried darker: a soft line just inside the silhouette."""
    # Blurred three abreast, so that the line does not change at the sheet's side edges.
    abreast = Image.new("L", (3 * SIDE, SIDE))
    for copy in range(3):
        abreast.paste(mask, (copy * SIDE, 0))
    inside = abreast.filter(ImageFilter.GaussianBlur(14)).crop((SIDE, 0, 2 * SIDE, SIDE))
    line = ImageChops.multiply(mask, ImageChops.invert(inside))
    return line.point([min(70, value // 2) for value in range(256)])


def paint_ridge(sheet: Image.Image, index: int) -> None:
    """Lay one ridge over what is painted already."""
    height, _, colour, mist = RIDGES[index]
    top = max(0.0, height - 0.05)
    foot = min(1.0, height + 0.12)
    mask = silhouette(index)
    layer = wash(((0.0, colour), (top, colour), (foot, mist), (1.001, mist)))
    sheet.paste(layer, (0, 0), mask)
    sheet.paste((28, 52, 58), (0, 0), pooled(mask))


def paint_cloud(sheet: Image.Image) -> None:
    """Long thin clouds, as a nearly dry brush leaves them, in the upper part of the sky."""
    streaks = ImageChops.add(grain(7, 40, seed=5), grain(17, 90, seed=8), scale=2)
    cloud = streaks.point([max(0, min(120, (value - 138) * 2)) for value in range(256)])
    fade = Image.new("L", (SIDE, SIDE), 0)
    slope = Image.linear_gradient("L").resize((SIDE, SIDE // 5))
    fade.paste(slope, (0, 0))
    fade.paste(ImageChops.invert(slope), (0, SIDE // 5))
    sheet.paste((250, 240, 222), (0, 0), ImageChops.multiply(cloud, fade))


def with_grain(sheet: Image.Image) -> Image.Image:
    """The tooth of the paper and the unevenness of the washes."""
    blotch = grain(11, 11, seed=71).point([118 + value * 20 // 255 for value in range(256)])
    tooth = grain(420, 420, seed=13).point([120 + value * 16 // 255 for value in range(256)])
    both = ImageChops.add(blotch, tooth, scale=2)
    return ImageChops.overlay(sheet, Image.merge("RGB", (both, both, both)))


def hill_line() -> Image.Image:
    """The whole picture."""
    sheet = wash(SKY)
    paint_cloud(sheet)
    for index in range(len(RIDGES)):
        paint_ridge(sheet, index)
    return with_grain(sheet)


def main() -> None:
    """Write the pictures beside this file."""
    target = Path(__file__).with_name("hill-line.jpg")
    hill_line().save(target, quality=84, dpi=(DPI, DPI), optimize=True)
    print(target)


if __name__ == "__main__":
    main()
