"""Figures as pixels: what the PDF shows, what the SVG shows, and how far the two are apart."""

from __future__ import annotations

from io import BytesIO

import numpy as np
import pypdfium2
import resvg_py
from numpy.typing import NDArray
from PIL import Image
from reportlab import rl_config
from reportlab.pdfgen.canvas import Canvas

from booklet.drawing.shapes.figure import Figure
from booklet.drawing.shapes.fonts import Font, font_file
from booklet.drawing.writers.pdf_writer import PdfResources, draw_figure
from booklet.drawing.writers.svg_writer import figure_svgs

Pixels = NDArray[np.float64]

# The two rasterisers soften edges differently: a picture with one shape of each kind differs by 0.18 % of
# full tone in the mean (measured), and by half a tone nowhere.  The limits leave room for half as much again.
MEAN_LIMIT = 0.003
STRONG = 0.5
STRONG_SHARE_LIMIT = 0.0001


def figure_pdf(figure: Figure) -> bytes:
    """A PDF of one page, as large as the figure, packed as the booklet is."""
    rl_config.useA85 = 0
    held = BytesIO()
    canvas = Canvas(held, pagesize=(figure.width, figure.height), invariant=1, pageCompression=1)
    draw_figure(figure, PdfResources(canvas), 0, figure.height)
    canvas.save()
    return held.getvalue()


def figure_svg(figure: Figure) -> str:
    """The figure as an SVG document of its own."""
    (svg,) = figure_svgs([figure])
    return svg


def pdf_pixels(pdf: bytes, dots_per_point: float = 3.0) -> Pixels:
    """The first page in grey, 0 black to 1 white, rows from the top."""
    page = pypdfium2.PdfDocument(pdf)[0]
    return _grey(page.render(scale=dots_per_point).to_pil())


def svg_pixels(svg: str, width: int) -> Pixels:
    """The drawing on white in grey, rows from the top."""
    fonts = [str(font_file(font)) for font in Font]
    png = resvg_py.svg_to_bytes(
        svg, font_files=fonts, skip_system_fonts=True, width=width, dpi=96, background="#fff"
    )
    return _grey(Image.open(BytesIO(bytes(png))))


def _grey(picture: Image.Image) -> Pixels:
    red, green, blue = (np.asarray(one, dtype=np.float64) for one in picture.convert("RGB").split())
    grey: Pixels = (red + green + blue) / (3 * 255)
    return grey


def farthest(one: Pixels, other: Pixels) -> float:
    """By how much that pixel differs that differs most; pictures of different sizes are wholly apart."""
    return float(np.abs(one - other).max()) if one.shape == other.shape else 1.0


def difference(pdf: bytes, svg: str) -> tuple[float, float]:
    """The mean difference of tone, and the share of pixels that differ by more than half a tone."""
    left = pdf_pixels(pdf)
    right = svg_pixels(svg, left.shape[1])
    assert abs(left.shape[0] - right.shape[0]) <= 1
    rows = min(left.shape[0], right.shape[0])
    apart = np.abs(left[:rows] - right[:rows])
    return float(apart.mean()), float((apart > STRONG).mean())


def same_picture(pdf: bytes, svg: str, mean_limit: float = MEAN_LIMIT) -> bool:
    """Whether a PDF and an SVG show the same drawing."""
    mean, strong = difference(pdf, svg)
    return mean < mean_limit and strong < STRONG_SHARE_LIMIT
