"""Pages whose content or resources cannot be unpacked, or are not in the file, as qpdf and zlib see them.

A reader shows such a page without what it cannot read, and says nothing.
"""

from __future__ import annotations

import zlib
from collections.abc import Iterator, Sequence
from io import BytesIO
from typing import Any

import pikepdf

from booklet.proof.printed import Page

# What leads from a page to other pages, or to nothing that it shows (ISO 32000-1, table 30; from memory).
_ELSEWHERE = {"/Parent", "/Annots", "/B", "/StructParents", "/PieceInfo"}
_PACKED = "/FlateDecode"
# So much is unpacked at a time.
_STEP = 1 << 20
# The operators that name a resource, and where it is looked up (ISO 32000-1, tables 105 and 87; from memory).
_NAMED = {"Do": "/XObject", "Tf": "/Font"}


def unread_pages(data: bytes, pages: Sequence[Page]) -> frozenset[int]:
    """The numbers of pages, as they were read, of which something cannot be read.

    Raises pikepdf.PdfError for what is no PDF at all.
    """
    numbers, opened = ([page.number for page in shown] for shown in (pages, [it for it in pages if it.width]))
    whole = _whole_pages(data)
    if len(whole) == len(opened):  # qpdf leaves out a page that is not in the file
        found = {number for number, is_whole in zip(opened, whole, strict=True) if is_whole}
    elif len(whole) == len(numbers):
        found = {number for number, is_whole in zip(numbers, whole, strict=True) if is_whole} & {*opened}
    else:
        found = set()
    return frozenset(numbers) - found


def _whole_pages(data: bytes) -> list[bool]:
    """Whether each page of a file can be read."""
    with pikepdf.open(BytesIO(data), suppress_warnings=True) as document:
        unpacked: dict[tuple[int, int], bool] = {}
        leaves = _leaves(document.Root.get("/Pages"))
        return [_is_whole(page, unpacked) for page in leaves]


def _leaves(root: Any) -> Iterator[Any]:
    """The pages of a tree as the file has them: also those that are no pages."""
    nodes, seen = [root], set()
    while nodes:
        node = nodes.pop()
        kids = node.get("/Kids") if isinstance(node, pikepdf.Dictionary) else None
        if not isinstance(kids, pikepdf.Array):
            yield node
        elif node.objgen not in seen:
            seen.add(node.objgen)
            nodes += reversed([kids[at] for at in range(len(kids))])


def _is_whole(page: Any, unpacked: dict[tuple[int, int], bool]) -> bool:
    if not isinstance(page, pikepdf.Dictionary) or "/Contents" not in page:
        return False
    # A file that was tampered with may hold anything in any place: then the bindings raise what they like.
    try:
        return all(_is_unpacked(stream, unpacked) for stream in _streams(page)) and _has_what_it_names(page)
    except (pikepdf.PdfError, AttributeError, LookupError, TypeError, ValueError, RuntimeError):
        return False


def _streams(page: Any) -> Iterator[Any]:
    """Every stream that a page leads to."""
    nodes, seen = [page], set()
    while nodes:
        node = nodes.pop()
        if not isinstance(node, pikepdf.Dictionary | pikepdf.Array | pikepdf.Stream):
            continue
        if node.is_indirect:
            if node.objgen in seen:
                continue
            seen.add(node.objgen)
        if isinstance(node, pikepdf.Stream):
            yield node
        if isinstance(node, pikepdf.Array):
            nodes += list(node)
        else:
            nodes += [value for key, value in node.items() if key not in _ELSEWHERE]


def _is_unpacked(stream: Any, unpacked: dict[tuple[int, int], bool]) -> bool:
    if stream.objgen not in unpacked:
        unpacked[stream.objgen] = _unpacks(stream)
    return unpacked[stream.objgen]


def _unpacks(stream: Any) -> bool:
    """Whether a stream that zlib packed can be unpacked to its end; others are taken as they are."""
    filters = stream.get("/Filter", [])
    names = list(filters) if isinstance(filters, pikepdf.Array) else [filters]
    if not names or str(names[0]) != _PACKED:
        return True
    inflate, packed = zlib.decompressobj(), stream.read_raw_bytes()
    try:
        while packed and not inflate.eof:
            inflate.decompress(packed, _STEP)
            packed = inflate.unconsumed_tail
    except zlib.error:
        return False
    return inflate.eof


def _has_what_it_names(page: Any) -> bool:
    """Whether every font, form and picture that a page's content asks for is in the file."""
    resources = pikepdf.Page(page).resources
    return all(
        str(step.operands[0]) in resources.get(_NAMED[str(step.operator)], {})
        for step in pikepdf.parse_content_stream(pikepdf.Page(page), " ".join(_NAMED))
    )
