"""The front cover: whose kit it is, what it is called, and every finished layout."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.content.blocks import Arrangement, Block, Card, Cards, CardStyle, Picture, Section
from booklet.content.figures import FinishedPages
from booklet.content.names import kit_name, layout_name, month_name
from booklet.content.spans import Line, Own, Weight, line
from booklet.content.words.language import Language
from booklet.kit.kit import Kit
from booklet.kit.spreads import spreads
from booklet.placing.resolved import ResolvedKit

# More tickets than these say nothing but how the pages look: their titles would fill the cover.
_MOST_TITLED = 6
# How many tickets may stand in so many columns; in the most where there are more.
_COLUMNS = ((4, 2), (9, 3), (24, 4))
_MOST_COLUMNS = 6


def front_cover_section(resolved: ResolvedKit, language: Language) -> Section:
    """The first spread large, all others as tickets, and how much there is to make.

    A draft of a kit that has no layouts yet has but its title.
    """
    kit, words = resolved.kit, language.front
    first, others = spreads(kit)[:1], spreads(kit)[1:]
    blocks: list[Block] = [finished_picture(kit, spread, language) for spread in first]
    if others:
        cards = tuple(_ticket(kit, spread, len(others) <= _MOST_TITLED, language) for spread in others)
        blocks.append(Cards(cards, CardStyle.BELOW, _columns(len(others))))
    return Section(
        "cover",
        line(kit_name(kit)),
        tuple(blocks),
        Arrangement.FRONT_COVER,
        kicker=words.made_by(Own(kit.publisher, ("publisher",)), month_name(kit)),
        lead=_count(resolved, language) if kit.layouts else (),
        part=words.cover_part,
    )


def _count(resolved: ResolvedKit, language: Language) -> Line:
    kit, numbers = resolved.kit, language.basics
    return language.front.cover_count(
        numbers.number(len(kit.layouts), kit.unit, ("layouts",)),
        numbers.number(_pieces(resolved), kit.unit, ("sheets",)),
    )


def finished_picture(kit: Kit, spread: Sequence[int], language: Language) -> Picture:
    """The finished pages of a spread, or the one that lies alone."""
    titles = [layout_name(kit, index) for index in spread]
    return Picture(FinishedPages(tuple(spread)), language.front.finished_pages(titles))


def _ticket(kit: Kit, spread: tuple[int, ...], is_titled: bool, language: Language) -> Card:
    titles = tuple(line(layout_name(kit, index, Weight.NORMAL)) for index in spread) if is_titled else ()
    return Card(finished_picture(kit, spread, language), titles)


def _columns(count: int) -> int:
    return next((columns for most, columns in _COLUMNS if count <= most), _MOST_COLUMNS)


def _pieces(resolved: ResolvedKit) -> int:
    """How many pieces the layouts take."""
    return sum(1 for entry in resolved.ledger.entries if entry.use is not None)
