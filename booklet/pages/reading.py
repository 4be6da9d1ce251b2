"""What a reading file holds besides its pages: their names, facts on itself, and the kit it is made of."""

from __future__ import annotations

from collections.abc import Sequence
from hashlib import md5
from itertools import chain
from typing import Any
from zlib import compress

from reportlab.pdfbase.pdfdoc import PDFImageXObject

from booklet.content.blocks import Arrangement, Furniture
from booklet.content.spans import Line, plain_text
from booklet.kit.kit_files import FileRole, KitFile
from booklet.pages.canvas import BookletCanvas
from booklet.pages.compose import Page
from booklet.pages.metadata import DC, PDF, XMP, Metadata
from booklet.pages.pdf_objects import (
    ByteString,
    RawStream,
    TextString,
    array,
    dictionary,
    name,
    set_in_catalog,
)

# How an attached file stands to the pages (ISO 32000-2, 7.11.3): what they were made from, or what was added.
_RELATIONS = {FileRole.SPEC: "Source", FileRole.IMAGE: "Source", FileRole.TRIMMER: "Supplement"}
# Images are packed already.
_PACKED = {FileRole.SPEC, FileRole.TRIMMER}


def name_pages(canvas: BookletCanvas, pages: Sequence[Page], words: Furniture) -> None:
    """Call the pages by their printed numbers, and the covers, which have none, by what they are."""
    said: dict[int, Line] = {}
    for at, page in enumerate(pages):
        if page.is_bare:
            is_front = page.parts[0].section.arrangement is Arrangement.FRONT_COVER
            said[at] = words.front_cover if is_front else words.back_cover
    labels: list[Any] = []
    for at in range(len(pages)):
        if said.get(at):
            labels += [at, dictionary(P=TextString(plain_text(said[at])))]
        elif at == 0 or said.get(at - 1):
            labels += [at, dictionary(S=name("D"), St=at + 1)]
    set_in_catalog(canvas._doc, PageLabels=dictionary(Nums=array(*labels)))


# Facts on the file itself.


def describe_file(canvas: BookletCanvas, language: str) -> None:
    """Say in a metadata stream (XMP, ISO 16684-1; from memory) what the file's information says."""
    info, tree = canvas._doc.info, Metadata()
    year, month, day, *time = canvas._doc._timeStamp.YMDhms  # the date that the information gives: no clock's
    date = "{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z".format(year, month, day, *time)
    tree.say(DC, "format", "application/pdf")
    tree.list(DC, "title", "Alt", dict.fromkeys(("x-default", language), info.title))
    tree.list(DC, "creator", "Seq", {"": info.author})
    tree.list(DC, "description", "Alt", dict.fromkeys(("x-default", language), info.subject))
    tree.list(DC, "language", "Bag", {"": language})
    tree.say(PDF, "Producer", info.producer)
    tree.say(PDF, "Keywords", info.keywords)
    tree.say(XMP, "CreatorTool", info.creator)
    tree.say(XMP, "CreateDate", date)
    tree.say(XMP, "ModifyDate", date)
    metadata = RawStream(tree.packet(), Type=name("Metadata"), Subtype=name("XML"))
    set_in_catalog(canvas._doc, Metadata=metadata)


# The kit that the pages are made of.


def attach_files(canvas: BookletCanvas, files: Sequence[KitFile]) -> None:
    """Attach what the pages are made of, so that the file alone can be made again; each file once.

    A picture whose very bytes are drawn on the pages is named and not attached a second time: it may be
    most of the file.  `XXPicture` (a private key, ISO 32000-1, annex E) leads to where it is drawn from.
    """
    if not files:
        return
    drawn = {each.streamContent: each for each in canvas._doc.idToObject.values() if _is_jpeg(each)}
    entries = [(TextString(file.name), file, drawn.get(file.data)) for file in files]
    specs = [(key, _file(canvas, key, file, picture), picture) for key, file, picture in entries]
    attached = sorted(
        ((key, spec) for key, spec, picture in specs if picture is None), key=lambda entry: entry[0].data
    )
    tree = dictionary(EmbeddedFiles=dictionary(Names=array(*chain.from_iterable(attached))))
    set_in_catalog(canvas._doc, Names=tree, AF=array(*(spec for _, spec, _ in specs)))


def _is_jpeg(each: object) -> bool:
    """Whether an object of the file is a picture that is drawn from the bytes of a JPEG file as they are."""
    return isinstance(each, PDFImageXObject) and list(each._filters) == ["DCTDecode"]


def _file(canvas: BookletCanvas, key: TextString, file: KitFile, picture: PDFImageXObject | None) -> Any:
    """A file specification (ISO 32000-1, 7.11.3), by reference."""
    relation = name(_RELATIONS[file.role])
    facts = dictionary(
        Size=len(file.data), CheckSum=ByteString(md5(file.data, usedforsecurity=False).digest())
    )
    common = {"Type": name("Filespec"), "F": key, "UF": key, "AFRelationship": relation}
    if picture is not None:
        drawn = canvas._doc.Reference(picture)
        return canvas._doc.Reference(dictionary(**common, XXPicture=drawn, XXParams=facts))
    packed = {"Filter": name("FlateDecode")} if file.role in _PACKED else {}
    data = compress(file.data, 9) if packed else file.data
    kind = name(*file.media_type)
    held = RawStream(data, Type=name("EmbeddedFile"), Subtype=kind, Params=facts, **packed)
    reference = canvas._doc.Reference(held)
    return canvas._doc.Reference(dictionary(**common, EF=dictionary(F=reference, UF=reference)))
