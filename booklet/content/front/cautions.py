"""Cautions after ANSI Z535.6 (from memory): signal word, hazard, consequence, how to avoid it.

WARNING could cause serious injury, CAUTION a minor one.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.content.blocks import Arrangement, Block, Caution, Paragraph, Section, Tone
from booklet.content.spans import Own
from booklet.content.words.language import Language
from booklet.kit.kit import Kit
from booklet.kit.steps import Punch, Snip, TrimRound
from booklet.kit.supply import SupplyKind

_SMALL = {SupplyKind.BRADS, SupplyKind.DOTS, SupplyKind.FOAM, SupplyKind.OWN}


def care_section(kit: Kit, language: Language) -> Section:
    """What this kit calls for, the most serious first, the publisher's own words, and whose rules apply."""
    words = language.tools
    return Section(
        "care",
        words.take_care,
        tuple(_messages(kit, language)),
        Arrangement.COMPACT,
        kicker=language.front.before_cutting,
    )


def _messages(kit: Kit, language: Language) -> Iterator[Block]:
    words = language.tools
    kinds = {supply.kind for supply in kit.supplies}
    if _has_blades(kit):
        yield Caution(words.warning, True, words.blades)
    if kinds & _SMALL:
        yield Caution(words.caution, False, words.small_parts)
    if SupplyKind.ADHESIVE in kinds:
        yield Caution(words.caution, False, words.adhesives)
    if kit.cautions:
        own = [Own(said, ("cautions", at)) for at, said in enumerate(kit.cautions)]
        yield Caution(words.caution, False, words.own_cautions(own))
    yield Paragraph(words.directions, Tone.NOTE)


def _has_blades(kit: Kit) -> bool:
    steps = (step for layout in kit.layouts for step in layout.steps)
    by_hand = any(isinstance(step, Snip | TrimRound | Punch) for step in steps)
    return by_hand or any(sheet.cuts != () for sheet in kit.sheets)
