"""Pages to plan by: which photograph goes where, and a label for each pocket."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.content.blocks import Arrangement, Card, Cards, CardStyle, Picture, Section
from booklet.content.figures import PhotoFigure
from booklet.content.names import layout_name
from booklet.content.photos import photo_extent
from booklet.content.sorting.pockets import pocket_picture
from booklet.content.spans import line
from booklet.content.words.language import Language
from booklet.kit.spreads import pockets_of
from booklet.placing.photos import PhotoSlot, photo_slots
from booklet.placing.resolved import ResolvedKit

# More titles would not fit a label, and the number alone finds the pocket.
_MOST_TITLES = 3


def planner_section(resolved: ResolvedKit, language: Language) -> Section | None:
    """A line for each photograph of each layout; None where no layout takes any."""
    words = language.sorting
    cards = tuple(
        _photo_card(resolved, index, slot, language)
        for index, layout in enumerate(resolved.layouts)
        for slot in photo_slots(layout, resolved.kit.unit)
    )
    if not cards:
        return None
    return Section(
        "planner",
        words.planner,
        (Cards(cards, CardStyle.WRITE, columns=2),),
        Arrangement.COMPACT,
        kicker=language.closing.to_write_in,
        lead=words.planner_lead(resolved.kit.unit),
    )


def _photo_card(resolved: ResolvedKit, index: int, slot: PhotoSlot, language: Language) -> Card:
    unit, layout = resolved.kit.unit, resolved.layouts[index]
    source = layout.item(slot.item).path
    size = photo_extent(slot.size, unit, source)
    name = layout_name(resolved.kit, index)
    picture = Picture(PhotoFigure(size), language.sorting.photo(size))
    return Card(picture, (language.sorting.photo_place(name, size),))


def labels_section(resolved: ResolvedKit, language: Language) -> Section:
    """A label for each pocket: its name, and the layouts that it serves."""
    words = language.sorting
    return Section(
        "labels",
        words.labels_title,
        (Cards(tuple(_labels(resolved, language)), CardStyle.LABEL, columns=2),),
        Arrangement.COMPACT,
        kicker=words.to_cut_out,
        lead=words.labels_lead,
    )


def _labels(resolved: ResolvedKit, language: Language) -> Iterator[Card]:
    kit = resolved.kit
    for pocket in pockets_of(kit):
        served = [index for index, layout in enumerate(kit.layouts) if layout.pocket == pocket]
        lines = [line(layout_name(kit, index)) for index in served[:_MOST_TITLES]]
        more = len(served) - _MOST_TITLES
        if more > 0:
            count = language.basics.few(more, ("layouts",))
            lines.append(language.sorting.and_more(count))
        yield Card(pocket_picture(pocket, language), tuple(lines))
