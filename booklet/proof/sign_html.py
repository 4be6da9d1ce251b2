"""The sheet to sign as one HTML file that needs no other: the document, and the pages with their marks.

Nothing in the file asks for anything from elsewhere, and it has no script: a content-security policy forbids
both.  All words go in escaped.
"""

from __future__ import annotations

from base64 import b64encode
from collections import defaultdict
from collections.abc import Iterable, Iterator
from html import escape

from booklet.content.blocks import (
    Align,
    Block,
    Cell,
    Document,
    Heading,
    ItemList,
    Marker,
    Paragraph,
    Row,
    RowKind,
    Table,
    Tick,
    WritingLines,
)
from booklet.content.spans import Line, Own, Weight, Words, plain_text
from booklet.content.words.language import Language
from booklet.kit.source import Source
from booklet.proof.measured import Measured
from booklet.proof.pictures import PagePicture
from booklet.proof.printed import Box
from booklet.proof.proof import Proof
from booklet.proof.read_back import PageProof, Printed

_POLICY = "default-src 'none'; img-src data:; style-src 'unsafe-inline'; form-action 'none'; base-uri 'none'"
_STYLE = """
body { font: 15px/1.45 system-ui, sans-serif; color: #111; background: #fff; max-width: 62em;
  margin: 2em auto; padding: 0 1em }
h1, h2 { line-height: 1.2 } h2 { margin-top: 1.6em }
table { border-collapse: collapse; width: 100% }
th, td { text-align: left; vertical-align: top; padding: .25em .6em .25em 0; border-bottom: 1px solid #bbb }
.end { text-align: right } .centre { text-align: center } th.group { padding-top: 1em }
td { overflow-wrap: anywhere } .pen td { height: 2em }
ul { list-style: none; padding: 0 }
figure { margin: 1.5em 0; break-inside: avoid } figure div { position: relative; max-width: 44em }
figure img, figure svg { display: block; width: 100% }
figure svg { position: absolute; inset: 0; height: 100% }
rect { fill: transparent; stroke-width: .5 } .held { stroke: #00794d } .drawn { stroke: #0059a8 }
.failed { stroke: #c00; stroke-width: 2; stroke-dasharray: 4 2 }
.cross { fill: #c00; font: bold 12px sans-serif }
@media print { body { margin: 0; max-width: none } }
"""


def sign_html(document: Document, proof: Proof, source: Source, language: Language) -> bytes:
    """The sheet to sign, and every page that was proved; UTF-8, the same bytes for the same proof."""
    (section,) = document.sections
    title, words = plain_text(document.title), language.proof
    blocks = "\n".join(part for block in section.blocks for part in _block(block))
    pages = "\n".join(_pages(proof, source, language))
    return (
        f'<!DOCTYPE html>\n<html lang="{escape(document.language)}">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(title)}</title>\n<style>{_STYLE}</style>\n</head>\n<body>\n<main>\n"
        f"<h1>{escape(title)}</h1>\n{blocks}\n<h2>{_said(words.pages)}</h2>\n<p>{_said(words.pages_note)}</p>\n"
        f"{pages}\n</main>\n</body>\n</html>\n"
    ).encode()


# The document.


def _block(block: Block) -> Iterator[str]:
    match block:
        case Heading():
            yield f"<h2>{_said(block.text)}</h2>"
        case Paragraph():
            yield f"<p>{_said(block.text)}</p>"
        case ItemList():
            yield from ("<ul>", *(_item(item, block.marker) for item in block.items), "</ul>")
        case Table():
            yield _table(block)
        case WritingLines():
            yield f"<h2>{_said(block.title)}</h2>\n<p>{_said(block.text)}</p>"
            blank = f"<tr>{'<td></td>' * len(block.heads)}</tr>"
            yield f'<table class="pen"><tr>{_heads(block.heads)}</tr>{blank * block.least}</table>'
        case _:
            raise TypeError(f"{type(block).__name__} is no part of a sheet to sign")


def _heads(heads: Iterable[Line]) -> str:
    return "".join(f'<th scope="col">{_said(head)}</th>' for head in heads)


def _item(item: Line, marker: Marker) -> str:
    said = _said(item)
    return f"<li><label>{_TICK} {said}</label></li>" if marker is Marker.TICK else f"<li>{said}</li>"


_TICK = '<input type="checkbox">'


def _table(block: Table) -> str:
    sides = [column.align for column in block.columns]
    heads = "".join(
        f'<th scope="col"{_side(column.align)}>{_said(column.head)}</th>' for column in block.columns
    )
    heads_said = [plain_text(column.head) for column in block.columns]
    rows = "\n".join(_row(row, sides, heads_said) for row in block.rows)
    return f"<table>\n<thead><tr>{heads}</tr></thead>\n<tbody>\n{rows}\n</tbody>\n</table>"


def _side(align: Align) -> str:
    return "" if align is Align.START else f' class="{align.value}"'


def _row(row: Row, sides: list[Align], heads: list[str]) -> str:
    if row.kind is RowKind.GROUP:
        said = " ".join(_said(cell) for cell in row.cells if isinstance(cell, tuple))
        return f'<tr><th class="group" colspan="{len(sides)}" scope="rowgroup">{said}</th></tr>'
    words = [plain_text(cell) for cell in row.cells if isinstance(cell, tuple)]
    name = " ".join(words[:2])
    cells = (
        f"<td{_side(side)}>{_cell(cell, f'{head}: {name}')}</td>"
        for cell, side, head in zip(row.cells, sides, heads, strict=True)
    )
    return f"<tr>{''.join(cells)}</tr>"


def _cell(cell: Cell, name: str) -> str:
    if isinstance(cell, Tick):
        return f'<input type="checkbox" aria-label="{escape(name)}">'
    assert isinstance(cell, tuple), "a sheet to sign has no pictures in its tables"
    return _said(cell)


def _said(said: Line) -> str:
    return "".join(_span(span) for span in said)


def _span(span: object) -> str:
    words = escape(plain_text((span,)))  # type: ignore[arg-type]  # every part of a line is a span
    weight = span.weight if isinstance(span, Words | Own) else Weight.NORMAL
    tag = {Weight.STRONG: "strong", Weight.QUIET: "em"}.get(weight)
    return f"<{tag}>{words}</{tag}>" if tag else words


# The pages.


def _pages(proof: Proof, source: Source, language: Language) -> Iterator[str]:
    lengths: defaultdict[int, list[Measured]] = defaultdict(list)
    for one in proof.lengths:
        lengths[one.claim.page].append(one)
    for page, picture in zip(proof.pages, proof.pictures, strict=False):
        if page.is_read and picture.jpeg:
            marks = "".join(_marks(page, lengths[page.page], source))
            yield _figure(picture, marks, _caption(page, lengths[page.page], language), page.page)


def _figure(picture: PagePicture, marks: str, caption: str, number: int) -> str:
    jpeg, (width, height) = b64encode(picture.jpeg).decode(), picture.size
    return (
        f'<figure id="page-{number}">\n<figcaption>{caption}</figcaption>\n<div>'
        f'<img src="data:image/jpeg;base64,{jpeg}" alt="{caption}" loading="lazy">'
        f'<svg viewBox="0 0 {width:g} {height:g}" role="img" aria-label="{caption}">{marks}</svg>'
        "</div>\n</figure>"
    )


def _caption(page: PageProof, lengths: list[Measured], language: Language) -> str:
    held = sum(one.holds for one in lengths)
    amiss = len(page.missing) + sum(not one.holds for one in page.printed)
    failed = amiss + len(lengths) - held
    return escape(plain_text(language.proof.page_caption(page.page, page.found, held, failed)))


def _marks(page: PageProof, lengths: list[Measured], source: Source) -> Iterator[str]:
    """A frame about each number and each thing that was measured."""
    for one in lengths:
        if one.box is not None:
            off = "" if one.off is None else f", {one.off:.4f} mm"
            yield _mark(one.box, "drawn", f"{one.claim.key}{off}", holds=one.holds)
    for printed in page.printed:
        yield _mark(printed.box, "held", _from(printed, source), holds=printed.holds)


def _from(printed: Printed, source: Source) -> str:
    """What a number says and where in the spec it comes from."""
    claim = printed.claim
    if claim is None:
        return str(printed.token)
    place = f", {source.name}:{source.line(claim.source)}" if claim.source else ""
    return f"{claim.said}: {claim.key}{place}"


def _mark(box: Box, kind: str, said: str, *, holds: bool) -> str:
    sides = f'x="{box.left - 1:.1f}" y="{box.top - 1:.1f}"'
    sides += f' width="{box.width + 2:.1f}" height="{box.height + 2:.1f}"'
    rect = f'<rect class="{kind if holds else "failed"}" {sides}><title>{escape(said)}</title></rect>'
    cross = f'<text class="cross" x="{box.right + 1:.1f}" y="{box.top + 4:.1f}">\u2717</text>'
    return rect if holds else rect + cross
