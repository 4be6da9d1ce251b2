"""Templates at true size: which there are of a piece or a layout, and what is said on them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.content.artist import ruler_flags
from booklet.content.assembly.flags import flags_of
from booklet.content.assembly.things import LayoutContext, item_name, layout_context
from booklet.content.names import kit_name, layout_name, piece_name, supply_name
from booklet.content.photos import photo_extent
from booklet.content.spans import Extent, Length, Line, Own, Part, Role, Weight, line, plain_text
from booklet.content.words.language import Language
from booklet.cutting.orientation import has_edge
from booklet.drawing.layouts.look import Look
from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.shapes.scale import TRUE_SIZE
from booklet.drawing.templates.layout_template import LayoutTemplate, ThingLabel
from booklet.drawing.templates.piece_template import PieceTemplate
from booklet.drawing.templates.words import WordBlock
from booklet.kit.fields import Edge
from booklet.kit.kit import Kit, sheet_size
from booklet.kit.paper import Paper
from booklet.kit.sheet import OutlineShape
from booklet.measure.dataclass import dataclass
from booklet.placing.model import ItemKind, Placed
from booklet.placing.piece_shape import PieceShape, piece_shape
from booklet.placing.resolved import ResolvedKit
from booklet.placing.stitches import Stitched
from booklet.sorting.ledger import LedgerEntry


@dataclass(frozen=True)
class Template:
    """One drawing at true size, and in a few words for each of its pages what it is and how to read it."""

    title: Line
    drawing: PieceTemplate | LayoutTemplate
    legend: Line = ()


@dataclass(frozen=True)
class TemplateDocument:
    """Templates of one file, with the words that each page has.  `accent` is the colour of rings."""

    language: str
    title: Line
    author: Line
    subject: Line
    accent: str
    templates: tuple[Template, ...]
    print_it: Line
    join: Line


def piece_document(
    resolved: ResolvedKit, entries: Sequence[LedgerEntry], language: Language
) -> TemplateDocument:
    """A template of each shape that pieces have; those of one shape share it.

    Raises ValueError for no pieces.
    """
    if not entries:
        raise ValueError("a template of no piece")
    alike: dict[tuple[PieceShape, tuple[tuple[Edge, str], ...]], list[LedgerEntry]] = {}
    for entry in entries:
        key = piece_shape(resolved, entry), tuple(_edges(resolved, entry).items())
        alike.setdefault(key, []).append(entry)
    templates = tuple(_piece_template(resolved, same, shape, language) for (shape, _), same in alike.items())
    return _document(resolved, piece_name(entries[0]), templates, language)


def layout_document(resolved: ResolvedKit, index: int, language: Language) -> TemplateDocument:
    """A template of a layout, by its index among the kit's layouts."""
    template = _layout_template(resolved, index, language)
    return _document(resolved, layout_name(resolved.kit, index), (template,), language)


def _document(
    resolved: ResolvedKit, name: Own, templates: tuple[Template, ...], language: Language
) -> TemplateDocument:
    kit, words = resolved.kit, language.template
    return TemplateDocument(
        language.code,
        words.title(kit_name(kit), name),
        line(Own(kit.publisher, ("publisher",))),
        words.subject,
        kit.accent,
        templates,
        words.print_it,
        words.join,
    )


# A piece.


def _piece_template(
    resolved: ResolvedKit, alike: Sequence[LedgerEntry], shape: PieceShape, language: Language
) -> Template:
    kit, words, entry = resolved.kit, language.template, alike[0]
    size = Extent(entry.size, kit.unit, entry.where, with_unit=True)
    labels = list(dict.fromkeys(one.label for one in alike if one.label))
    told = words.piece_size(labels, size) if labels else words.ready_size(_ready_size(kit, entry, language))
    said = [told, *_said(resolved, entry, shape, language), words.outline]
    block = WordBlock(
        tuple(map(plain_text, said)),
        (plain_text(line(piece_name(entry))),),
        up=_has_up(resolved, entry),
    )
    parts = (
        () if shape.is_whole else tuple(plain_text(line(Own(part.name, entry.where))) for part in shape.parts)
    )
    drawing = PieceTemplate(
        entry.name, shape, kit.unit, block, parts, tuple(_area_words(resolved, shape, language))
    )
    return Template(line(piece_name(entry, Weight.STRONG), ", ", told), drawing)


def _ready_size(kit: Kit, entry: LedgerEntry, language: Language) -> Line:
    """The size of a ready-cut piece; a disc is measured across, as the booklet says."""
    _, index = entry.source
    size = entry.size
    if kit.ready[index].outline is OutlineShape.CIRCLE and size.width == size.height:
        return language.basics.across(Length(size.width, kit.unit, Role.SIZE, entry.where, with_unit=True))
    return line(Extent(size, kit.unit, entry.where, with_unit=True))


def _said(resolved: ResolvedKit, entry: LedgerEntry, shape: PieceShape, language: Language) -> Iterator[Line]:
    """Which way up its print is, what its edges are called, what scissors leave of it."""
    words, unit = language.template, resolved.kit.unit
    yield words.up if _has_up(resolved, entry) else words.no_up
    for edge in _edges(resolved, entry):
        yield words.edge(_edge_word(resolved, entry, edge), edge)
    sizes = [Extent(part.area.size, unit, entry.where, with_unit=True) for part in shape.parts]
    if not shape.is_whole and len(shape.parts) == 1 and shape.parts[0].name == entry.name:
        yield words.trimmed(sizes[0])
    elif not shape.is_whole:
        named = zip(shape.parts, sizes, strict=True)
        yield words.snipped([words.part(Own(part.name, entry.where), size) for part, size in named])


def _paper_of(resolved: ResolvedKit, entry: LedgerEntry) -> str:
    kit = resolved.kit
    if entry.piece is not None:
        return kit.sheets[entry.piece.sheet_index].paper
    assert entry.ready_index is not None
    return kit.ready[entry.ready_index].paper


def _has_up(resolved: ResolvedKit, entry: LedgerEntry) -> bool:
    """Whether the front of a piece shows which way up it is; printed elements do."""
    kit = resolved.kit
    is_element = entry.piece is not None and kit.sheets[entry.piece.sheet_index].is_cut_apart
    return is_element or kit.papers[_paper_of(resolved, entry)].front.has_direction


def _edges(resolved: ResolvedKit, entry: LedgerEntry) -> dict[Edge, str]:
    """The edges of the paper that a piece has, and the words for them."""
    kit, piece = resolved.kit, entry.piece
    paper: Paper = kit.papers[_paper_of(resolved, entry)]
    if piece is None:
        return dict(paper.edges)
    if piece.is_turned:
        return {}
    whole = sheet_size(kit, kit.sheets[piece.sheet_index])
    return {edge: word for edge, word in paper.edges.items() if has_edge(piece.part, edge, whole)}


def _edge_word(resolved: ResolvedKit, entry: LedgerEntry, edge: Edge) -> Part:
    paper = _paper_of(resolved, entry)
    return Own(resolved.kit.papers[paper].edges[edge], ("papers", paper, "edges", edge.value))


def _area_words(resolved: ResolvedKit, shape: PieceShape, language: Language) -> Iterator[str]:
    for area in shape.areas:
        yield plain_text(language.template.stencilled(_supply_words(resolved, area.supply)))


def _supply_words(resolved: ResolvedKit, id: str | None) -> Part:
    kit = resolved.kit
    index = next((at for at, supply in enumerate(kit.supplies) if supply.id == id), None)
    return "" if index is None else supply_name(kit, index)


# A layout.


def _layout_template(resolved: ResolvedKit, index: int, language: Language) -> Template:
    kit, words = resolved.kit, language.template
    context = layout_context(resolved, index)
    look = Look(context.layout, resolved, KitPapers(kit, resolved.images), TRUE_SIZE)
    flags = ruler_flags(flags_of(context))
    labels = tuple(_labels(context, language))
    drawing = LayoutTemplate(f"layout-{context.layout.id}", look, labels, flags)
    size = Extent(context.layout.size, kit.unit, ("layouts", index, "base"), with_unit=True)
    title = line(layout_name(kit, index, Weight.STRONG), ", ", words.page_size(size))
    return Template(title, drawing, words.legend)


def _labels(context: LayoutContext, language: Language) -> Iterator[ThingLabel]:
    """A label for each thing, or stack of things, or for all small things, that a printed step lays."""
    stacks: list[list[Placed]] = []
    for item in context.layout.items:
        home = next((stack for stack in stacks if _belongs(context, item, stack)), None)
        if home is None:
            stacks.append([item])
        else:
            home.append(item)
    for stack in stacks:
        ids = tuple(item.id for item in stack)
        words = tuple(plain_text(said) for said in _stack_words(context, stack, language))
        yield ThingLabel(_ring(context, stack[0]), ids, words)


def _ring(context: LayoutContext, item: Placed) -> int:
    return context.numbers[item.step_number - 1]


def _belongs(context: LayoutContext, item: Placed, stack: Sequence[Placed]) -> bool:
    """Whether a thing is named with others: it lies on them, or is one more small thing of their step."""
    first = stack[0]
    if _ring(context, item) != _ring(context, first):
        return False
    if item.kind is ItemKind.ADDED or first.kind is ItemKind.ADDED:
        return (item.kind, item.supply, item.step_number) == (first.kind, first.supply, first.step_number)
    return first.rect.contains(item.rect) and first.rect != item.rect


def _stack_words(context: LayoutContext, stack: Sequence[Placed], language: Language) -> Iterator[Line]:
    if stack[0].kind is not ItemKind.ADDED:
        yield from (_item_words(context, item, language) for item in stack)
        return
    name = _item_words(context, stack[0], language)
    is_sewn = any(one.item == stack[0].id for one in context.layout.details(Stitched))
    count = sum(item.count for item in stack)
    yield name if count == 1 or is_sewn else language.template.several(count, name)


def _item_words(context: LayoutContext, item: Placed, language: Language) -> Line:
    words = language.template
    if item.kind is ItemKind.PHOTO:
        return words.photo(photo_extent(item.rect.size, context.unit, item.path))
    if item.kind is ItemKind.WRITING:
        return words.writing(Extent(item.rect.size, context.unit, item.path))
    if any(one.item == item.id for one in context.layout.details(Stitched)):
        return words.stitches
    name = item_name(context, item)
    return line(name if name is not None else Own(item.name, item.path))
