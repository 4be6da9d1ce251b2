"""Images beside the spec: opened within limits, turned upright, made ready to embed."""

from __future__ import annotations

import re
import warnings
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from functools import lru_cache
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from booklet.kit.errors import PictureError
from booklet.kit.look_through import look_through, notes_of_png
from booklet.kit.words import nearest, shown
from booklet.measure.dataclass import dataclass

if TYPE_CHECKING:
    from PIL.Image import Image

# A press needs 300 dots per inch: a 12 in sheet is 13 million pixels, a double page half of that.
MAX_BYTES = 40 << 20
MAX_PIXELS = 50_000_000
MAX_SIDE = 20_000
# A progressive JPEG is held whole until its last scan, with six bytes for each pixel.
MAX_PROGRESSIVE = 20_000_000
# An image of more pixels is looked through without being held whole, so that `check` takes little memory.
_HELD = 4_000_000
# One of more pixels that has to be coded anew is halved: what is left of it is finer than 200 dots to the
# inch on a 12 in sheet.
_HALVED = 25_000_000
# How many rows of a large image are worked on at a time.
_ROWS = 256
_PNG_BEGINS = b"\x89PNG"
# How the names of such files end, for those who look for them.
IMAGE_ENDINGS = (".png", ".jpg", ".jpeg")
_BEARABLE = f"an image of at most {MAX_PIXELS // 1_000_000} million pixels, {MAX_SIDE} on a side"
_AN_IMAGE = "a PNG or JPEG image"
_PLAIN_NAME = "the name of a file beside the spec"
# The EXIF tag that says how a camera was held (Exif 2.32, tag 0x0112, from memory); 1 is upright.
_ORIENTATION = 0x0112
_UPRIGHT = 1
_TURNED = range(2, 9)
_ON_ITS_SIDE = range(5, 9)
# Fine enough that a print at 300 dots per inch shows no trace of the second compression.
_JPEG_QUALITY = 92
# Markers of a JPEG file: start of scan, end, filling, comment, application segments and the two of them that
# are needed.
_SCAN = 0xDA
_END = 0xD9
_FILLING = 0xFF
_COMMENT = 0xFE
_APPLICATION = range(0xE0, 0xF0)
_COLOUR_CODING = (0xE0, 0xEE)
# What ends a scan: a marker that is neither an escaped byte, nor filling, nor one that restarts it.
_AFTER_SCAN = re.compile(rb"\xff[^\x00\xff\xd0-\xd7]")


# Where the images of a kit lie: in a folder, or held by their names, where the kit came in one file.
Images = Path | Mapping[str, bytes]


@dataclass(frozen=True)
class LoadedImage:
    """An upright image: width and height in pixels, its file's bytes, grey or RGB.

    `data` is a whole PNG or JPEG file (`kind`) without the camera's notes.
    """

    name: str
    width: int
    height: int
    kind: str
    mode: str
    data: bytes


@dataclass(frozen=True)
class ImageLook:
    """An image as it is judged: its name, and its width and height in pixels when it stands upright."""

    name: str
    width: int
    height: int


def look_at_image(images: Images, name: str) -> ImageLook:
    """The size of the image `name` of `images`, which is looked through to its end.

    Raises PictureError where `load_image` would.
    """
    return _looked_at(name, read_image(images, name))


@lru_cache(maxsize=32)
def _looked_at(name: str, data: bytes) -> ImageLook:
    with _refusing(name):
        image = _open(name, data)
        if image.width * image.height <= _HELD:
            held = _opened(name, data)
            return ImageLook(name, held.width, held.height)
        width, height = image.size
        noted = _open(name, notes_of_png(data)) if image.format == "PNG" else image
        if _orientation(noted) in _ON_ITS_SIDE:
            width, height = height, width
        look_through(image, data)
        return ImageLook(name, width, height)


def load_image(images: Images, name: str) -> LoadedImage:
    """Open the image `name` of `images`, decode it whole, and make it upright, grey or RGB, on white.

    A colour profile in the file is not applied; more than 25 million pixels are halved on each side, unless
    the file can stay as it is.  Raises PictureError for anything but a PNG or JPEG file of
    acceptable size that lies in the folder itself, or is held.
    """
    return _opened(name, read_image(images, name))


@lru_cache(maxsize=32)
def _opened(name: str, data: bytes) -> LoadedImage:
    """The image of these bytes; it is checked with the spec and drawn later, and decoded once for both."""
    with _refusing(name):
        return _ready(name, data, _open(name, data))


@contextmanager
def _refusing(name: str) -> Iterator[None]:
    """Turn anything that a decoder may raise on hostile bytes into a PictureError."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # damaged notes inside an image, and sizes that are checked here
            yield
    except PictureError:
        raise
    except Exception as error:
        raise PictureError(f"{shown(name)}, which cannot be read as an image", _AN_IMAGE) from error


def read_image(images: Images, name: str) -> bytes:
    """The bytes of the file `name` of `images`, not looked into.

    Raises PictureError for anything but a file of acceptable size that lies in the folder itself, or is held.
    """
    if isinstance(images, Path):
        return _read_beside(images, name)
    if name not in images:
        raise PictureError(f"no file {shown(name)}", f"{_AN_IMAGE} beside the spec", nearest(name, images))
    return images[name]


def _read_beside(folder: Path, name: str) -> bytes:
    if name != Path(name).name or "\\" in name or name.startswith(".") or not name.isprintable():
        raise PictureError(
            shown(name), f"{_PLAIN_NAME}, without a folder", nearest(Path(name).name, _images(folder))
        )
    path = folder / name
    try:
        if path.resolve().parent != folder.resolve():
            raise PictureError(f"{shown(name)}, a link that leads out of the folder", _PLAIN_NAME)
        if not path.is_file():
            raise PictureError(
                f"no file {shown(name)}", f"{_AN_IMAGE} beside the spec", nearest(name, _images(folder))
            )
        with path.open("rb") as stream:
            data = stream.read(MAX_BYTES + 1)
    except (OSError, ValueError, RuntimeError) as error:
        raise PictureError(f"{shown(name)}, which cannot be opened", _PLAIN_NAME) from error
    if len(data) > MAX_BYTES:
        raise PictureError(f"{shown(name)}, a file of more than {MAX_BYTES >> 20} MiB", "a smaller image")
    return data


def _images(folder: Path) -> list[str]:
    """The files of the folder that look like images, for a suggestion."""
    try:
        return sorted(
            file.name for file in folder.iterdir() if file.suffix.lower() in IMAGE_ENDINGS and file.is_file()
        )
    except OSError:
        return []


def _open(name: str, data: bytes) -> Image:
    """The image of these bytes, its pixels not read yet."""
    image = _decoder(data)
    width, height = image.size
    if width * height > MAX_PIXELS or max(width, height) > MAX_SIDE:
        raise PictureError(f"{shown(name)}, an image of {width} x {height} pixels", _BEARABLE)
    if image.info.get("progressive") and width * height > MAX_PROGRESSIVE:
        found = f"{shown(name)}, a progressive JPEG of {width} x {height} pixels"
        expected = f"at most {MAX_PROGRESSIVE // 1_000_000} million pixels, or a JPEG that is not progressive"
        raise PictureError(found, expected)
    return image


def _decoder(data: bytes) -> Image:
    """What decodes an image, by its first bytes; `PIL.Image.open` would load decoders of other formats."""
    if data.startswith(_PNG_BEGINS):
        from PIL.PngImagePlugin import PngImageFile

        return PngImageFile(BytesIO(data))
    from PIL.JpegImagePlugin import jpeg_factory

    return jpeg_factory(BytesIO(data))


def _orientation(image: Image) -> int:
    return int(image.getexif().get(_ORIENTATION, _UPRIGHT))


def _ready(name: str, data: bytes, image: Image) -> LoadedImage:
    is_turned, kind = _orientation(image) in _TURNED, "PNG" if image.format == "PNG" else "JPEG"
    is_kept = kind == "JPEG" and not is_turned and image.mode in ("RGB", "L")
    if is_kept and (kept := _without_notes(data)):
        width, height = image.size
        look_through(image, data)
        return LoadedImage(name, width, height, kind, image.mode, kept)
    is_large = image.width * image.height > _HALVED
    if is_large and kind == "JPEG" and not is_kept:
        image.draft(None, (image.width // 2, image.height // 2))
    image.load()
    shrunk = 2 if is_large and kind == "PNG" else 1
    plain = _plain(_upright(image) if is_turned else image, shrunk)
    return LoadedImage(name, plain.width, plain.height, kind, plain.mode, _encoded(plain, kind))


def _upright(image: Image) -> Image:
    """An image as its camera was held; its notes are not written anew, which fails where they are damaged."""
    from PIL.Image import Transpose

    # What brings it upright, by the value of the tag.
    turns = {
        2: Transpose.FLIP_LEFT_RIGHT,
        3: Transpose.ROTATE_180,
        4: Transpose.FLIP_TOP_BOTTOM,
        5: Transpose.TRANSPOSE,
        6: Transpose.ROTATE_270,
        7: Transpose.TRANSVERSE,
        8: Transpose.ROTATE_90,
    }
    return image.transpose(turns[_orientation(image)])


def _plain(image: Image, shrunk: int) -> Image:
    """The image in grey or RGB, what is transparent on white, so many times smaller."""
    is_clear = image.mode in ("LA", "PA", "RGBA", "La", "RGBa") or "transparency" in image.info
    if not is_clear and image.mode in ("RGB", "L"):
        return image.reduce(shrunk) if shrunk > 1 else image
    if image.mode.startswith("I"):  # sixteen bits of grey
        return _by_rows(image, "L", shrunk, _top_byte)
    if is_clear:
        return _by_rows(image, "L" if image.mode in ("L", "LA") else "RGB", shrunk, _on_white)
    return _by_rows(image, "L" if image.mode == "1" else "RGB", shrunk, _converted)


def _by_rows(image: Image, mode: str, shrunk: int, change: Callable[[Image, str], Image]) -> Image:
    """An image in another mode and so many times smaller, changed some rows at a time to spare memory."""
    from PIL import Image

    changed = Image.new(mode, (-(-image.width // shrunk), -(-image.height // shrunk)))
    for top in range(0, image.height, _ROWS):
        rows = change(image.crop((0, top, image.width, min(top + _ROWS, image.height))), mode)
        changed.paste(rows.reduce(shrunk) if shrunk > 1 else rows, (0, top // shrunk))
    return changed


def _top_byte(rows: Image, mode: str) -> Image:
    return rows.convert("I").point(lambda value: value * (1 / 256)).convert(mode)


def _on_white(rows: Image, mode: str) -> Image:
    from PIL import Image

    ground = Image.new("RGBA", rows.size, "white")
    ground.alpha_composite(rows.convert("RGBA"))
    return ground.convert(mode)


def _converted(rows: Image, mode: str) -> Image:
    return rows.convert(mode)


def _encoded(image: Image, kind: str) -> bytes:
    """A PNG or JPEG file of the bare pixels."""
    image.info = {}
    stream = BytesIO()
    if kind == "PNG":
        image.save(stream, "PNG")
    else:
        image.save(stream, "JPEG", quality=_JPEG_QUALITY, subsampling=0)
    return stream.getvalue()


def _without_notes(data: bytes) -> bytes | None:
    """A JPEG file with its pixels untouched and without what a camera or editor noted: place, owner, preview.

    Its segments are walked to its end (ITU-T T.81, annex B, from memory), and what follows there is left
    out; JFIF's and Adobe's own, which say how colours are coded, stay.  None where it is not built that way.
    """
    kept = [data[:2]]
    at = 2
    while data[at : at + 1] == b"\xff" and at + 2 <= len(data):
        marker = data[at + 1]
        if marker == _END:
            return b"".join([*kept, data[at : at + 2]])
        if marker == _FILLING:
            at += 1
            continue
        end = at + 2 + int.from_bytes(data[at + 2 : at + 4], "big")
        if marker == _SCAN:
            after = _AFTER_SCAN.search(data, end)
            end = after.start() if after else len(data)
        is_note = marker == _COMMENT or (marker in _APPLICATION and marker not in _COLOUR_CODING)
        if not is_note:
            kept.append(data[at:end])
        at = end
    return None
