"""Images beside the spec: upright, grey or RGB on white, without notes; anything else is refused."""

from __future__ import annotations

import os
import re
import struct
import subprocess
import sys
import zlib
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image, ImageOps

from booklet.cli.starter import STARTER_SPEC
from booklet.kit import images
from booklet.kit.errors import PictureError
from booklet.kit.images import MAX_BYTES, MAX_PIXELS, MAX_PROGRESSIVE, load_image, look_at_image
from tests.fuzz.pictures import picture as picture_of_kind

ORIENTATION = 0x0112
RED, BLUE = (200, 30, 30), (30, 30, 200)


def picture(width: int = 40, height: int = 20) -> Image.Image:
    """A picture that is red above and blue below."""
    image = Image.new("RGB", (width, height), BLUE)
    image.paste(RED, (0, 0, width, height // 2))
    return image


def saved(image: Image.Image, kind: str, **how: Any) -> bytes:
    stream = BytesIO()
    image.save(stream, kind, **how)
    return stream.getvalue()


def held(orientation: int) -> Image.Exif:
    """The camera's note of how it was held."""
    exif = Image.Exif()
    exif[ORIENTATION] = orientation
    exif[0x010E] = "our garden, 12 Harbour Row"
    return exif


def pixels(data: bytes) -> Image.Image:
    return Image.open(BytesIO(data)).convert("RGB")


def near(colour: Any, expected: tuple[int, int, int]) -> bool:
    return all(abs(one - other) < 12 for one, other in zip(colour, expected, strict=True))


def test_a_png_keeps_its_pixels(tmp_path: Path) -> None:
    (tmp_path / "tide.png").write_bytes(saved(picture(), "PNG"))
    image = load_image(tmp_path, "tide.png")
    assert (image.width, image.height, image.kind, image.mode) == (40, 20, "PNG", "RGB")
    assert pixels(image.data).tobytes() == picture().tobytes()


def test_an_upright_jpeg_is_not_compressed_again_but_loses_its_notes(tmp_path: Path) -> None:
    data = saved(picture(), "JPEG", exif=held(1), comment=b"secret", quality=80)
    (tmp_path / "tide.jpg").write_bytes(data)
    image = load_image(tmp_path, "tide.jpg")
    assert b"Harbour Row" in data
    assert b"Harbour Row" not in image.data
    assert b"secret" not in image.data
    assert pixels(image.data).tobytes() == pixels(data).tobytes()
    assert image.data.endswith(data[data.index(b"\xff\xda") :])


def test_a_jpeg_is_kept_to_its_end_and_without_notes_between_its_scans(tmp_path: Path) -> None:
    data = saved(picture(), "JPEG", quality=80, progressive=True)
    scans = [found.start() for found in re.finditer(rb"\xff\xda", data)]
    assert len(scans) > 2
    note = b"\xff\xfe" + (2 + len(b"secret")).to_bytes(2, "big") + b"secret"
    filling = b"\xff\xff"
    noted = data[: scans[1]] + note + filling + data[scans[1] :] + saved(picture(), "JPEG", comment=b"second")
    (tmp_path / "tide.jpg").write_bytes(noted)
    image = load_image(tmp_path, "tide.jpg")
    assert b"secret" not in image.data
    assert b"second" not in image.data
    assert image.data.count(b"\xff\xd9") == 1
    assert pixels(image.data).tobytes() == pixels(data).tobytes()


# Where the top of the picture is found when the camera was held so (Exif 2.32, orientation, from memory).
@pytest.mark.parametrize(
    ("orientation", "size"), [(1, (40, 20)), (3, (40, 20)), (6, (20, 40)), (8, (20, 40))]
)
def test_a_photograph_stands_upright_however_the_camera_was_held(
    tmp_path: Path, orientation: int, size: tuple[int, int]
) -> None:
    turns = {
        1: None,
        3: Image.Transpose.ROTATE_180,
        6: Image.Transpose.ROTATE_90,
        8: Image.Transpose.ROTATE_270,
    }
    upright = picture(*size)
    turn = turns[orientation]
    as_held = upright.transpose(turn) if turn is not None else upright
    data = saved(as_held, "JPEG", exif=held(orientation), quality=95)
    (tmp_path / "tide.jpg").write_bytes(data)
    image = load_image(tmp_path, "tide.jpg")
    assert (image.width, image.height) == size
    assert near(pixels(image.data).getpixel((size[0] // 2, 2)), RED)
    assert near(pixels(image.data).getpixel((size[0] // 2, size[1] - 3)), BLUE)
    assert b"Harbour Row" not in image.data


@pytest.mark.parametrize("orientation", range(1, 9))
def test_every_way_to_hold_a_camera_is_turned_as_pillow_turns_it(tmp_path: Path, orientation: int) -> None:
    scene = picture(40, 20)
    scene.putpixel((1, 1), (0, 200, 0))  # a corner that no mirror hides
    data = saved(scene, "PNG", exif=held(orientation))
    (tmp_path / "tide.png").write_bytes(data)
    theirs = ImageOps.exif_transpose(Image.open(BytesIO(data)))
    assert pixels(load_image(tmp_path, "tide.png").data).tobytes() == theirs.convert("RGB").tobytes()


def test_a_photograph_with_damaged_notes_is_not_refused(tmp_path: Path) -> None:
    data = bytearray(saved(picture(40, 20), "JPEG", exif=held(6)))
    kind_of_words = data.index(b"\x01\x0e\x00\x02") + 3  # the tag of the words, then: ASCII
    data[kind_of_words] = 4  # a number, which words are not
    (tmp_path / "tide.jpg").write_bytes(data)
    image = load_image(tmp_path, "tide.jpg")
    # Not every release of Pillow finds in them how the camera was held.
    assert {image.width, image.height} == {20, 40}


@pytest.mark.parametrize(
    ("mode", "colour", "seen", "kept"),
    [
        ("RGBA", (0, 0, 0, 0), (255, 255, 255), "RGB"),
        ("LA", (0, 0), (255, 255, 255), "L"),
        ("L", 90, (90, 90, 90), "L"),
        ("1", 1, (255, 255, 255), "L"),
        ("P", 0, (0, 0, 0), "RGB"),
        ("I;16", 0x8000, (128, 128, 128), "L"),
        ("RGB", (1, 2, 3), (1, 2, 3), "RGB"),
    ],
)
def test_every_kind_of_png_becomes_grey_or_rgb(
    tmp_path: Path, mode: str, colour: Any, seen: tuple[int, int, int], kept: str
) -> None:
    (tmp_path / "tide.png").write_bytes(saved(Image.new(mode, (3, 3), colour), "PNG"))
    image = load_image(tmp_path, "tide.png")
    assert image.mode == kept
    assert pixels(image.data).getpixel((1, 1)) == seen


def test_a_transparent_colour_is_white(tmp_path: Path) -> None:
    data = saved(Image.new("RGB", (3, 3), (9, 9, 9)), "PNG", transparency=(9, 9, 9))
    (tmp_path / "tide.png").write_bytes(data)
    assert pixels(load_image(tmp_path, "tide.png").data).getpixel((1, 1)) == (255, 255, 255)


def test_a_jpeg_in_printing_inks_becomes_rgb(tmp_path: Path) -> None:
    (tmp_path / "tide.jpg").write_bytes(
        saved(Image.new("CMYK", (8, 8), (0, 255, 255, 0)), "JPEG", quality=95)
    )
    image = load_image(tmp_path, "tide.jpg")
    assert (image.mode, image.kind) == ("RGB", "JPEG")
    assert near(pixels(image.data).getpixel((4, 4)), (255, 0, 0))


@pytest.mark.parametrize("kind", ["PNG", "JPEG"])
def test_the_same_file_gives_the_same_bytes(tmp_path: Path, kind: str) -> None:
    (tmp_path / "tide").write_bytes(saved(picture(), kind, exif=held(6)))
    assert load_image(tmp_path, "tide") == load_image(tmp_path, "tide")


@pytest.mark.parametrize(
    "name",
    [
        "../tide.png",
        "/etc/hostname",
        "june/tide.png",
        "june\\tide.png",
        "..",
        ".",
        ".tide.png",
        "a\0b.png",
        "",
    ],
)
def test_only_a_plain_name_is_opened(tmp_path: Path, name: str) -> None:
    (tmp_path / "june").mkdir()
    for place in ("tide.png", "june/tide.png", ".tide.png"):
        (tmp_path / place).write_bytes(saved(picture(), "PNG"))
    with pytest.raises(PictureError, match=r"the name of a file beside the spec|no file"):
        load_image(tmp_path / "june" if name.startswith("../") else tmp_path, name)


def test_a_link_may_stay_in_the_folder_but_not_leave_it(tmp_path: Path) -> None:
    folder = tmp_path / "june"
    folder.mkdir()
    for place in (tmp_path / "tide.png", folder / "tide.png"):
        place.write_bytes(saved(picture(), "PNG"))
    (folder / "inside.png").symlink_to("tide.png")
    (folder / "outside.png").symlink_to(tmp_path / "tide.png")
    (folder / "circle.png").symlink_to("circle.png")
    assert load_image(folder, "inside.png").width == 40
    with pytest.raises(PictureError, match="a link that leads out of the folder"):
        load_image(folder, "outside.png")
    with pytest.raises(PictureError):
        load_image(folder, "circle.png")


def test_a_missing_image_is_reported_with_the_nearest_one(tmp_path: Path) -> None:
    (tmp_path / "low-tide.jpg").write_bytes(saved(picture(), "JPEG"))
    with pytest.raises(PictureError, match=r"no file low-tied\.jpg.*\(nearest: low-tide\.jpg\)"):
        load_image(tmp_path, "low-tied.jpg")


def test_what_cannot_be_read_as_a_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "folder.png").mkdir()
    os.mkfifo(tmp_path / "fifo.png")
    for name in ("folder.png", "fifo.png"):
        with pytest.raises(PictureError, match="no file"):
            load_image(tmp_path, name)


def png_of(width: int, height: int) -> bytes:
    """The head of a PNG file that claims to be this large, and nearly nothing else."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    head = chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0))
    return b"\x89PNG\r\n\x1a\n" + head + chunk(b"IDAT", zlib.compress(bytes(1000))) + chunk(b"IEND", b"")


@pytest.mark.parametrize(
    ("width", "height"),
    [(MAX_PIXELS // 10_000 + 1, 10_000), (20_001, 1), (100_000, 100_000), (2**31 - 1, 2**31 - 1)],
)
def test_a_small_file_that_claims_to_be_a_huge_image_is_not_decoded(
    tmp_path: Path, width: int, height: int
) -> None:
    (tmp_path / "bomb.png").write_bytes(png_of(width, height))
    with pytest.raises(PictureError, match=r"pixels|cannot be read"):
        load_image(tmp_path, "bomb.png")


def test_a_file_of_too_many_bytes_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "tide.png"
    file.write_bytes(saved(picture(), "PNG"))
    os.truncate(file, MAX_BYTES + 1)
    with pytest.raises(PictureError, match="MiB"):
        load_image(tmp_path, "tide.png")


@pytest.mark.parametrize("kind", ["PNG", "JPEG"])
def test_an_image_that_was_cut_short_is_refused(tmp_path: Path, kind: str) -> None:
    data = saved(Image.effect_noise((200, 200), 80), kind)
    (tmp_path / "tide").write_bytes(data[: len(data) // 2])
    with pytest.raises(PictureError, match="cannot be read as an image"):
        load_image(tmp_path, "tide")


@pytest.mark.parametrize("kind", ["GIF", "BMP", "TIFF", "PDF", "ICO"])
def test_other_kinds_of_image_are_refused(tmp_path: Path, kind: str) -> None:
    (tmp_path / "tide.png").write_bytes(saved(picture(), kind))
    with pytest.raises(PictureError, match="expected a PNG or JPEG image"):
        load_image(tmp_path, "tide.png")


@given(st.sampled_from(["PNG", "JPEG"]), st.integers(0, 400), st.binary(max_size=12))
@settings(max_examples=200, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_damaged_images_are_read_or_refused(tmp_path: Path, kind: str, at: int, damage: bytes) -> None:
    data = bytearray(saved(picture(), kind, exif=held(6)))
    data[at : at + len(damage)] = damage
    (tmp_path / "tide").write_bytes(data)
    try:
        image = load_image(tmp_path, "tide")
    except PictureError:
        return
    assert image.mode in ("RGB", "L")
    assert pixels(image.data).size == (image.width, image.height)


def test_a_folder_is_not_the_nearest_image(tmp_path: Path) -> None:
    (tmp_path / "tide.png").mkdir()
    with pytest.raises(PictureError) as refused:
        load_image(tmp_path, "tide.png")
    assert refused.value.nearest is None
    (tmp_path / "tides.png").write_bytes(saved(picture(), "PNG"))
    with pytest.raises(PictureError) as refused:
        load_image(tmp_path, "tide.png")
    assert refused.value.nearest == "tides.png"


@pytest.fixture
def all_are_large(monkeypatch: pytest.MonkeyPatch) -> None:
    """Even the smallest image is looked through without being held."""
    monkeypatch.setattr(images, "_HELD", 0)


ADAM7 = ((0, 0, 8, 8), (4, 0, 8, 8), (0, 4, 4, 8), (2, 0, 4, 4), (0, 2, 2, 4), (1, 0, 2, 2), (0, 1, 1, 2))


def interlaced(image: Image.Image) -> bytes:
    """A PNG file in seven passes, those of Adam7, in the order in which a decoder meets their rows."""
    grey = image.convert("L")
    source: Any = grey.load()
    rows = bytearray()
    for x, y, across, down in ADAM7:
        for row in range(y, grey.height, down):
            columns = range(x, grey.width, across)
            rows += bytes([0, *(source[column, row] for column in columns)]) if columns else b""
    return grey_png(grey.width, grey.height, zlib.compress(bytes(rows)), interlace=1)


def grey_png(width: int, height: int, packed: bytes, interlace: int = 0) -> bytes:
    """A PNG file of grey pixels that are packed already."""
    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, interlace)
    parts = ((b"IHDR", head), (b"IDAT", packed), (b"IEND", b""))
    chunks = [
        struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))
        for kind, body in parts
    ]
    return b"\x89PNG\r\n\x1a\n" + b"".join(chunks)


@pytest.mark.usefixtures("all_are_large")
@pytest.mark.parametrize("mode", ["RGBA", "LA", "L", "1", "P", "I;16", "RGB"])
@pytest.mark.parametrize(("width", "height"), [(1, 1), (3, 70), (70, 3), (33, 34)])
def test_a_large_png_is_looked_through_whatever_its_kind(
    tmp_path: Path, mode: str, width: int, height: int
) -> None:
    (tmp_path / "tide.png").write_bytes(saved(Image.new(mode, (width, height)), "PNG", exif=held(6)))
    looked = look_at_image(tmp_path, "tide.png")
    assert (looked.width, looked.height) == (height, width)
    (tmp_path / "woven.png").write_bytes(interlaced(Image.new("L", (width, height))))
    assert load_image(tmp_path, "woven.png").width == look_at_image(tmp_path, "woven.png").width == width


@pytest.mark.usefixtures("all_are_large")
@given(st.sampled_from(["PNG", "JPEG", "woven"]), st.integers(0, 400), st.binary(max_size=12))
@settings(max_examples=300, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_what_is_looked_through_can_be_read(tmp_path: Path, kind: str, at: int, damage: bytes) -> None:
    whole = interlaced(picture()) if kind == "woven" else saved(picture(), kind, exif=held(6))
    data = bytearray(whole)
    data[at : at + len(damage)] = damage
    (tmp_path / "tide").write_bytes(data)
    try:
        looked = look_at_image(tmp_path, "tide")
    except PictureError:
        return
    image = load_image(tmp_path, "tide")
    assert (looked.width, looked.height) == (image.width, image.height)


@pytest.mark.usefixtures("all_are_large")
@pytest.mark.parametrize("filter_of_a_row", [0, 4, 5])
def test_a_row_of_pixels_says_one_of_five_filters(tmp_path: Path, filter_of_a_row: int) -> None:
    rows = zlib.compress(bytes([0, 1, 1, filter_of_a_row, 2, 2]))
    (tmp_path / "tide.png").write_bytes(grey_png(2, 2, rows))
    if filter_of_a_row < 5:
        assert look_at_image(tmp_path, "tide.png").width == load_image(tmp_path, "tide.png").width == 2
    else:
        for read in (look_at_image, load_image):
            with pytest.raises(PictureError, match="cannot be read"):
                read(tmp_path, "tide.png")


def test_an_image_of_many_pixels_is_halved_where_it_is_coded_anew(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(images, "_HALVED", 500)
    for name, data in {
        "opaque.png": saved(picture(), "PNG"),
        "clear.png": saved(picture().convert("RGBA"), "PNG"),
        "turned.jpg": saved(picture(), "JPEG", exif=held(6)),
        "as it is.jpg": saved(picture(), "JPEG"),
    }.items():
        (tmp_path / name).write_bytes(data)
    sizes = {name.name: load_image(tmp_path, name.name) for name in tmp_path.iterdir()}
    assert {name: (image.width, image.height) for name, image in sizes.items()} == {
        "opaque.png": (20, 10),
        "clear.png": (20, 10),
        "turned.jpg": (10, 20),
        "as it is.jpg": (40, 20),
    }
    assert near(pixels(sizes["clear.png"].data).getpixel((3, 3)), RED)


def test_a_progressive_jpeg_of_too_many_pixels_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert MAX_PROGRESSIVE < MAX_PIXELS
    monkeypatch.setattr(images, "MAX_PROGRESSIVE", 799)
    (tmp_path / "tide.jpg").write_bytes(saved(picture(), "JPEG"))
    assert load_image(tmp_path, "tide.jpg").width == 40
    (tmp_path / "ebb.jpg").write_bytes(saved(picture(), "JPEG", progressive=True))
    for read in (look_at_image, load_image):
        with pytest.raises(PictureError, match="a JPEG that is not progressive"):
            read(tmp_path, "ebb.jpg")


_PEAK = """
import sys
from pathlib import Path
from booklet.cli.main import main
assert main(["check", sys.argv[1]]) == 0
print(Path("/proc/self/status").read_text().partition("VmHWM:")[2].split()[0])
"""


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="Linux says how much memory it took")
def test_fifty_million_pixels_are_checked_in_little_memory(tmp_path: Path) -> None:
    (tmp_path / "sand.png").write_bytes(picture_of_kind("fifty million with alpha"))
    spec = tmp_path / "kit.yaml"
    sand = 'front: {colours: ["#f1e7d6"]}'
    assert sand in STARTER_SPEC
    spec.write_text(STARTER_SPEC.replace(sand, "front: {image: sand.png}"), encoding="utf-8")
    told = subprocess.run([sys.executable, "-c", _PEAK, spec], capture_output=True, text=True, check=True)
    assert int(told.stdout.split()[-1]) < 200_000  # kB
