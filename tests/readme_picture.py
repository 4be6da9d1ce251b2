"""Draw the README's picture: one opening of the demo booklet, as the tool makes it.

Run `python tests/readme_picture.py` after a change that it shows, and look at the result.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from booklet.kit.load import load_kit
from booklet.pages import booklet
from booklet.placing.resolved import resolve_kit

if TYPE_CHECKING:
    from PIL.Image import Image

PROJECT = Path(__file__).resolve().parent.parent
PICTURE = PROJECT / ".readme" / "opening.png"
_KIT = PROJECT / "kit_specs" / "hill-line.yaml"
# The opening that shows most in little room: a sheet of three generations with two turns.
_BOOKMARK = "Station canopy"
_SCALE = 1.6
_GAP = 8


def opening() -> Image:
    """The two facing pages of the sheet, side by side on grey."""
    import pypdfium2
    from PIL import Image as Pixels

    document = pypdfium2.PdfDocument(booklet.write_booklet(booklet.make_booklet(resolve_kit(load_kit(_KIT)))))
    left = next(mark.get_dest().get_index() for mark in document.get_toc() if _BOOKMARK in mark.get_title())
    pages = [document[number].render(scale=_SCALE).to_pil() for number in (left, left + 1)]
    width, height = pages[0].size
    picture = Pixels.new("RGB", (2 * width + 3 * _GAP, height + 2 * _GAP), "#c9ced3")
    for place, page in enumerate(pages):
        picture.paste(page, (_GAP + place * (width + _GAP), _GAP))
    return picture


def main() -> None:
    """Write the picture with few colours, so that it stays small."""
    PICTURE.parent.mkdir(exist_ok=True)
    opening().quantize(128).save(PICTURE, optimize=True)
    print(PICTURE.relative_to(PROJECT))


if __name__ == "__main__":
    main()
