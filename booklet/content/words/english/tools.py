"""The words of the tools, supplies, photographs and cautions."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.content.spans import Extent, Length, Line, LineBreak, Number, Own, joined, line
from booklet.content.words.english.basics import BASICS
from booklet.kit.hands import Hand
from booklet.measure.length import TIMES


class EnglishTools:
    """The words of what is needed beside the papers, in English."""

    title = line("What you need")

    # Supplies.

    supplies = line("Also in the box")
    supply = line("Supply")
    in_box = line("In the box")
    needed = line("Needed")
    to_spare = line("To spare")
    none_used = line("–")

    def supply_entry(self, name: Own, measures: Sequence[Line], tip: Own | None) -> Line:
        """A supply: its name, its measures, the designer's tip."""
        said = joined((name, joined(measures, ", ")), "  ")
        return line(said, LineBreak(), tip) if tip else said

    def each(self, size: Extent) -> Line:
        """How large each of several is."""
        return line(size, " each")

    def several(self, count: Number, each: Length) -> Line:
        """So many of one length."""
        return line(count, f"\u00a0{TIMES}\u00a0", each)

    # What the member brings.

    bring = line("What you bring")
    usual_tools = (
        line("a paper trimmer, and scissors"),
        line("photo-safe adhesive"),
        line("a pencil, an eraser and a ruler"),
    )

    def at_cutting_table(self, tools: Line) -> Line:
        """Tools that are needed while sheets are cut: `for the cutting table: scissors, hole punch`."""
        return line("for the cutting table: ", tools)

    def trimmer(self, reach: Length, blade: Length, mark: Length | None) -> Line:
        """What the cuts ask of a trimmer: how far its scale reaches, how long its blade cuts, its marks."""
        said = line("Your trimmer: its scale must reach ", reach, ", its blade must cut ", blade, ".")
        return line(said, " Every cut lies on a mark of ", mark, ".") if mark else said

    def own_trimmer(
        self, mark: Length, reach: Length, blade: Length, hold: Length, together: Number, *, is_marked: bool
    ) -> Line:
        """The trimmer of one's own that this booklet is made for; whether every cut lies on its marks."""
        scale = line(
            "This booklet is made for your own trimmer: a scale to ", reach, " with a mark every ", mark
        )
        held = line(". At every cut, ", hold, " or more of paper can be held. One pass cuts up to ")
        papers = BASICS.counted(together, " paper")
        between = "" if is_marked else " Some cuts lie between two marks: set them by eye."
        return line(scale, ", a blade of ", blade, held, papers, f".{between}")

    def hands(self, hand: Hand, hold: Length) -> Line:
        """Which hand runs the blade, where the other one holds the paper, and where it must cross over."""
        own, other = ("right", "left") if hand is Hand.RIGHT else ("left", "right")
        runs = f"Run the blade with your {own} hand. Hold the paper with the other, {other} of the blade."
        return line(f"{runs} Where less than ", hold, f" lies there, hold it {own} of the blade.")

    # Photographs.

    print_head = line("Print")
    count_head = line("How many")
    use_head = line("How they lie")

    def photographs(self, count: Number) -> Line:
        """How many photographs the kit takes."""
        return BASICS.counted(count, " photograph")

    def enlargement(self, size: Extent) -> Line:
        """A photograph larger than any usual print."""
        return line(size, ", an enlargement")

    # As they are printed: higher than wide, wider than high, neither.
    upright = line("portrait")
    lying = line("landscape")
    square = line("square")

    def trimmed(self, size: Extent) -> Line:
        """To trim to a size."""
        return line("trim to ", size)

    # Cautions.

    take_care = line("Take care")
    warning = line("WARNING")
    caution = line("CAUTION")
    blades = line(
        "Blades are sharp and can cut deeply. Keep fingers out of the blade’s path. Close or cover it after "
        "every use. Keep it from children."
    )
    small_parts = line(
        "Small parts can choke a young child. Keep them out of reach, and clear the table when you stop."
    )
    adhesives = line("Adhesive can irritate skin and eyes. Use it in fresh air, and wash it off at once.")

    def own_cautions(self, cautions: Sequence[Own]) -> Line:
        """The publisher's own cautions, one after another."""
        return joined(cautions)

    directions = line(
        "Follow the directions of the makers of your trimmer and your adhesives, and the rules where you "
        "live."
    )
