"""The kit inside a reading file, taken out with care: whoever gives the file may have made it up.

Nothing is written anywhere.  What is packed is unpacked up to a limit and no further; names are names of
files, and lead nowhere; what is larger, more or other than a kit's files is refused.
"""

from __future__ import annotations

import zlib
from collections.abc import Iterator
from hashlib import md5
from io import BytesIO
from typing import Any

import pikepdf

from booklet.kit import text
from booklet.kit.errors import BookletError, SpecError, UsageError, problem_text
from booklet.kit.images import MAX_BYTES as MAX_IMAGE_BYTES
from booklet.kit.kit_files import TRIMMER_NAME
from booklet.kit.load import LoadedKit, parse_kit
from booklet.kit.own_trimmer import parse_trimmer
from booklet.kit.text import decode_text
from booklet.kit.words import quoted
from booklet.measure.dataclass import dataclass
from booklet.proof.given_file import count_pages
from booklet.proof.stated_edition import StatedEdition, stated_edition

# A kit of twelve sheets and layouts has some twenty images; no tree of names is deeper than this.
_MOST_FILES, _DEEPEST, _MOST_NODES = 200, 20, 1000
# All images of a kit together, unpacked.
_MOST_BYTES = 256 << 20
_LONGEST_NAME = 200
_SPECS = (".yaml", ".yml")
# What pikepdf raises where an object of a file is another than it is to be.
_NO_SUCH_OBJECT = (AttributeError, TypeError, ValueError, KeyError, IndexError, RuntimeError)
_NOT_OURS = "was not attached by `booklet make`"


@dataclass(frozen=True)
class GivenKit:
    """The kit of a reading file, and what the file says of itself: edition, program, pages."""

    loaded: LoadedKit
    edition: StatedEdition
    program: str
    pages: int


def kit_inside(name: str, data: bytes) -> GivenKit:
    """The kit that a reading file was made from; `name` is the file's, for messages.

    Raises UsageError, in one line, for what is no PDF, is damaged or encrypted, holds no kit, or one that
    cannot be read within the limits of a kit.
    """
    pages = count_pages(name, data)
    try:
        with pikepdf.open(BytesIO(data), suppress_warnings=True) as document:
            files = _files(name, document)
            keywords, program = (str(document.docinfo.get(key, "")) for key in ("/Keywords", "/Creator"))
    except (pikepdf.PdfError, *_NO_SUCH_OBJECT) as error:
        raise UsageError(f"{name} is damaged: what is attached to it cannot be read") from error
    return GivenKit(_loaded(name, files), stated_edition(keywords), program, pages)


def _loaded(name: str, files: dict[str, bytes]) -> LoadedKit:
    """The kit of these files, held in memory."""
    specs = [file for file in files if file.endswith(_SPECS) and file != TRIMMER_NAME]
    if not specs:
        raise UsageError(
            f"{name} has no kit inside, expected a reading file as `booklet make` writes it (KIT-read.pdf)"
        )
    if len(specs) > 1:
        raise UsageError(f"{name} has {len(specs)} specs inside, expected one")
    spec = specs[0]
    images = {file: data for file, data in files.items() if file not in (spec, TRIMMER_NAME)}
    try:
        own = None
        if TRIMMER_NAME in files:
            own = parse_trimmer(decode_text(files[TRIMMER_NAME], TRIMMER_NAME), TRIMMER_NAME)
        return parse_kit(decode_text(files[spec], spec), spec, images, own)
    except SpecError as wrong:
        more = f", and {others} more" if (others := len(wrong.problems) - 1 + wrong.more) else ""
        said = problem_text(wrong.problems[0])
        raise UsageError(f"the kit inside {name} cannot be read: {said}{more}") from wrong
    except BookletError as wrong:
        raise UsageError(f"the kit inside {name} cannot be read: {wrong}") from wrong


# What is attached.


def _files(pdf: str, document: pikepdf.Pdf) -> dict[str, bytes]:
    """All attached files by their names, unpacked.  Raises UsageError for names and sizes of no kit."""
    files: dict[str, bytes] = {}
    left = _MOST_BYTES
    for number, (name, spec) in enumerate(_specifications(pdf, document), 1):
        if number > _MOST_FILES:
            raise UsageError(f"{pdf} has more than {_MOST_FILES} files inside: it {_NOT_OURS}")
        _check_name(pdf, name)
        if name in files:
            raise UsageError(f"{pdf} has two files inside that are called {quoted(name)}: it {_NOT_OURS}")
        files[name] = _content(pdf, name, spec, left)
        left -= len(files[name])
    return files


def _specifications(pdf: str, document: pikepdf.Pdf) -> Iterator[tuple[str, Any]]:
    """Each file specification with its name: those of the tree of names, then pictures that pages draw."""
    tree = document.Root.get("/Names", pikepdf.Dictionary()).get("/EmbeddedFiles")
    for key, spec in _leaves(pdf, tree) if tree is not None else ():
        yield str(spec.get("/UF", spec.get("/F", key))), spec
    related = document.Root.get("/AF", ())
    if len(related) > _MOST_FILES:
        raise UsageError(f"{pdf} has more than {_MOST_FILES} files inside: it {_NOT_OURS}")
    for spec in related:
        if "/XXPicture" in spec and "/EF" not in spec:
            yield str(spec.get("/UF", "")), spec


def _leaves(pdf: str, tree: Any) -> Iterator[tuple[str, Any]]:
    """The pairs of a tree of names, however it is built; one that is a ring is no tree."""
    waiting, seen = [(tree, 0)], 0
    while waiting:
        node, depth = waiting.pop(0)
        seen += 1
        if depth > _DEEPEST or seen > _MOST_NODES:
            raise UsageError(f"{pdf} is damaged: its list of attached files has no end")
        names = list(node.get("/Names", ()))[: 2 * _MOST_FILES + 2]
        yield from ((str(key), spec) for key, spec in zip(names[::2], names[1::2], strict=False))
        waiting += [(kid, depth + 1) for kid in list(node.get("/Kids", ()))[:_MOST_NODES]]


def _check_name(pdf: str, name: str) -> None:
    """Refuse what is not the plain name of a file: a folder, a drive, what no screen shows."""
    is_plain = 0 < len(name) <= _LONGEST_NAME and name.isprintable() and not name.startswith(".")
    if not is_plain or any(mark in name for mark in "/\\:"):
        raise UsageError(f"{pdf} has a file inside that is called {quoted(name)}: it {_NOT_OURS}")


def _content(pdf: str, name: str, spec: Any, left: int) -> bytes:
    """A file's bytes, of which a checksum holds where there is one."""
    if "/XXPicture" in spec and "/EF" not in spec:
        data, facts = _drawn(pdf, name, spec["/XXPicture"]), spec.get("/XXParams", {})
    else:
        held = spec["/EF"]
        stream = held["/UF"] if "/UF" in held else held["/F"]
        data, facts = _unpacked(pdf, name, stream, min(left, _limit(name))), stream.get("/Params", {})
    said = facts.get("/CheckSum")
    if said is not None and bytes(said) != md5(data, usedforsecurity=False).digest():
        raise UsageError(f"{quoted(name)} inside {pdf} is damaged: it is not as it was attached")
    return data


def _limit(name: str) -> int:
    return text.MAX_BYTES if name.endswith(_SPECS) else MAX_IMAGE_BYTES


def _drawn(pdf: str, name: str, picture: Any) -> bytes:
    """The bytes of a JPEG file that pages draw as they are."""
    if _filters(picture) != ["/DCTDecode"]:
        raise UsageError(f"{quoted(name)} inside {pdf} was packed anew: it is not as it was attached")
    data = picture.read_raw_bytes()
    if len(data) > MAX_IMAGE_BYTES:
        raise _too_large(pdf, name, MAX_IMAGE_BYTES)
    return bytes(data)


def _unpacked(pdf: str, name: str, stream: Any, limit: int) -> bytes:
    """What a stream holds, never more than a limit of it."""
    packed, filters = bytes(stream.read_raw_bytes()), _filters(stream)
    if not filters:
        data, is_whole = packed, True
    elif filters == ["/FlateDecode"] and "/DecodeParms" not in stream:
        unpacking = zlib.decompressobj()
        try:
            data = unpacking.decompress(packed, limit + 1)
        except zlib.error:
            raise UsageError(f"{quoted(name)} inside {pdf} is damaged: it cannot be unpacked") from None
        is_whole = unpacking.eof or len(data) > limit
    else:
        raise UsageError(f"{quoted(name)} inside {pdf} is packed in an unknown way: it {_NOT_OURS}")
    if len(data) > limit:
        raise _too_large(pdf, name, limit)
    if not is_whole:
        raise UsageError(f"{quoted(name)} inside {pdf} is damaged: its end is missing")
    return data


def _too_large(pdf: str, name: str, limit: int) -> UsageError:
    return UsageError(f"{quoted(name)} inside {pdf} is larger than such a file can be ({limit >> 10} KiB)")


def _filters(stream: Any) -> list[str]:
    filters = stream.get("/Filter")
    if filters is None:
        return []
    return [str(one) for one in filters] if isinstance(filters, pikepdf.Array) else [str(filters)]
