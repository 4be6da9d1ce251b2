"""How many bytes the SVG figures of a kit take, and how much processor time it takes to write them.

    python tests/benchmarks/bench_svg.py [KIT] [ROUNDS]

The pages are laid out before that: what is measured is what `booklet make` does from the figures on its pages
to the contents of their files.  The goal is 2 MB at the most for a kit as large as hill-line.
"""

from __future__ import annotations

import gc
import sys
from dataclasses import dataclass
from pathlib import Path
from statistics import median
from time import process_time

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from booklet.cli.main import raise_gc_threshold  # noqa: E402 (a checkout need not be installed)
from booklet.drawing.writers.svg_writer import figure_svgs  # noqa: E402
from booklet.kit.bundled import find_spec  # noqa: E402
from booklet.kit.load import load_kit  # noqa: E402
from booklet.pages.booklet import figures_of, make_booklet  # noqa: E402
from booklet.placing.resolved import resolve_kit  # noqa: E402

GOAL = 2_000_000


@dataclass(frozen=True)
class SvgFigures:
    """The SVG figures of a kit: how many, their bytes in all, the median of the processor's milliseconds."""

    kit: str
    count: int
    size: int
    cpu: float


def measure_figures(kit: str = "hill-line", rounds: int = 5) -> SvgFigures:
    """Write the figures of a kit that often; what is imported and computed once is there before the first."""
    booklet = make_booklet(resolve_kit(load_kit(find_spec(kit))))
    written = figure_svgs(figures_of(booklet))
    times = []
    for _ in range(rounds):
        gc.collect()  # so that no round pays for what another left behind
        start = process_time()
        figure_svgs(figures_of(booklet))
        times.append((process_time() - start) * 1000)
    return SvgFigures(kit, len(written), sum(len(svg.encode()) for svg in written), median(times))


def print_figures(figures: SvgFigures) -> None:
    """Say what was measured, and whether the figures are as small as they are to be."""
    verdict = "within" if figures.size <= GOAL else "above"
    print(f"{figures.kit}: {figures.count} figures, {figures.size / 1e6:.2f} MB ({verdict} the goal of 2 MB)")
    print(f"written in {figures.cpu:.0f} ms of the processor")


if __name__ == "__main__":
    raise_gc_threshold()
    chosen = sys.argv[1] if len(sys.argv) > 1 else "hill-line"
    print_figures(measure_figures(chosen, int(sys.argv[2]) if len(sys.argv) > 2 else 5))
