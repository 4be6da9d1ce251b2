"""The words of templates at true size."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.content.spans import Extent, Line, Own, Part, joined, line, strong
from booklet.kit.fields import Edge
from booklet.measure.length import TIMES


class EnglishTemplate:
    """The words of templates in English."""

    subject = line("A template at true size")

    def title(self, kit: Own, name: Own) -> Line:
        """The title of the file."""
        return line(name, ", ", kit)

    def piece_size(self, labels: Sequence[str], size: Extent) -> Line:
        """The labels of the pieces of this shape, and their size."""
        return line(joined([", ".join(labels), size], ", "))

    def ready_size(self, size: Part) -> Line:
        """The size of a piece that comes ready-cut: its sides, or how far it is across."""
        return line(size, ", ready-cut")

    up = line("The arrow points up the print.")
    no_up = line("The print has no up and down.")
    outline = line("The middle of the line is the edge.")

    def edge(self, word: Part, edge: Edge) -> Line:
        """What an edge of the print is called, and where it is."""
        place = {Edge.TOP: "At the top", Edge.BOTTOM: "At the foot"}.get(edge, f"At the {edge.value}")
        return line(place, ": ", word, ".")

    def trimmed(self, size: Extent) -> Line:
        """What scissors leave of a piece."""
        return line("Broken line: trimmed to ", size, ".")

    def snipped(self, parts: Sequence[Line]) -> Line:
        """The parts that scissors leave of a piece."""
        return line("Broken lines: cut in parts, ", joined(parts, "; "), ".")

    def part(self, name: Part, size: Extent) -> Line:
        """A part by its name and its size."""
        return line(name, " ", size)

    def stencilled(self, supply: Part) -> Line:
        """What an area to stencil bears."""
        return line("stencil: ", supply)

    def page_size(self, size: Extent) -> Line:
        """The size of a layout's page."""
        return line("page ", size)

    legend = line("Broken lines: beneath. Rings: steps.")

    def photo(self, size: Extent) -> Line:
        """A place for a photograph."""
        return line("photo ", size)

    def writing(self, size: Extent) -> Line:
        """Room for handwriting."""
        return line("writing ", size)

    stitches = line("stitches")

    def several(self, count: int, name: Line) -> Line:
        """So many of one thing."""
        return line(f"{count} {TIMES} ", name)

    # On every page.

    print_it = line(
        strong("Print at 100 %,"), " not fitted, on one side. Measure both scales before you cut."
    )
    join = line(
        "Where another page lies above or at the left, cut off the margin along the outer thin line. "
        "Lay each lettered mark on its like, over a window or a lamp, and tape."
    )
