"""How long a save takes to be seen in `booklet view`, warm: from the file's write to the changed pixels.

    python -m tests.benchmarks.bench_view [KIT] [SAVES] [--plain]

Of each sheet that is cut the first reading is set a mark back, of each layout one distance of one of its
steps; the next time a mark further, so that no page is one that was seen before.  The opening with its page
is in view, in a window of 1440 x 900.  Times are of the clock, a median for the sheets and one for the
layouts.  Chromium draws the pixels, where it is installed; with `--plain` the clock stops when the picture
has been fetched, without any browser.

A save comes after seconds in which nothing was done.  On a machine that is shared, what a process touches
first after such a rest may be slow to come back, and the processor slower in some minutes than in others,
whatever the program.  Both are measured in the same run: as the time to read one byte of each of many pages
of memory, after such a rest and at once, and as the time to count.
"""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from itertools import cycle, islice
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from typing import Any

from booklet.kit.load import parse_kit
from booklet.pages.booklet import make_booklet
from booklet.pages.places import section_pages
from booklet.placing.resolved import resolve_kit
from tests.benchmarks.bench_again import KITS, Change, changes
from tests.view.looking import get, listening

# The goal in milliseconds, for a sheet and for a layout.
GOAL = 100.0
ROOT = Path(__file__).resolve().parents[2]
# A window of 1440 pixels shows a page so wide.
_WIDTH = 507
# Saves come so far apart, in seconds: what follows one that has been seen is over by then.
_APART = 3.5
# Notes when the picture of a page has been put in the place of another, and painted: a message that is sent
# in the frame that shows it comes after that.
_STOPWATCH = """
(number) => {
  const page = document.querySelector(`[data-number="${number}"] .page`);
  window.seen = new Promise((resolve) => {
    new MutationObserver((_, observer) => {
      observer.disconnect();
      requestAnimationFrame(() => {
        const after = new MessageChannel();
        after.port1.onmessage = () => resolve(performance.timeOrigin + performance.now());
        after.port2.postMessage(0);
      });
    }).observe(page.parentElement, { attributes: true, attributeFilter: ["data-digest"] });
  });
}
"""
# The memory that is read to see what a rest costs: so many pages of so many bytes.
_PAGES, _PAGE = 8192, 4096
# Saves a text and says how many milliseconds passed until its page was seen.
Save = Callable[[str, int], float]


@contextmanager
def served(spec: Path) -> Iterator[str]:
    """`booklet view` in a process of its own; its address."""
    process = subprocess.Popen(
        [sys.executable, "-m", "booklet", "view", str(spec)],
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        stdout=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    try:
        yield process.stdout.readline().split()[0].rstrip("/")
    finally:
        process.send_signal(signal.SIGINT)
        process.wait()


@contextmanager
def in_browser(address: str, spec: Path) -> Iterator[Save]:
    """Save and wait for the pixels."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        flags = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"]
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=flags)
        page = browser.new_page(viewport={"width": 1440, "height": 900})
        page.goto(address)
        page.wait_for_selector(".page img")

        def save(text: str, number: int) -> float:
            page.evaluate("(n) => document.querySelector(`[data-number='${n}']`).scrollIntoView()", number)
            time.sleep(0.5)
            page.evaluate(_STOPWATCH, number)
            start = time.time()
            spec.write_text(text, encoding="utf-8")
            return float(page.evaluate("window.seen")) - 1000 * start

        yield save
        browser.close()


@contextmanager
def without_browser(address: str, spec: Path) -> Iterator[Save]:
    """Save and wait for the picture."""
    with listening(address) as browser:
        browser.state("current")

        def save(text: str, number: int) -> float:
            browser.look_at(number, width=_WIDTH)
            start = time.time()
            spec.write_text(text, encoding="utf-8")
            while (told := browser.next("page"))["number"] != number:
                pass
            assert get(address, f"/picture/{told['digest']}/{_WIDTH}").status == 200
            return 1000 * (time.time() - start)

        yield save


def reading(memory: bytearray) -> float:
    """How long it takes to read a byte of each page of memory, in microseconds a page."""
    start = time.perf_counter()
    memory[::_PAGE]
    return 1e6 * (time.perf_counter() - start) / _PAGES


def counting() -> float:
    """How long it takes to count to a hundred thousand, in milliseconds: the processor's speed alone."""
    start, total = time.perf_counter(), 0
    for number in range(100_000):
        total += number * number
    return 1000 * (time.perf_counter() - start)


def pages_of(kit: str, every: list[Change]) -> dict[str, int]:
    """The first page of each section."""
    laid = make_booklet(resolve_kit(parse_kit(every[0].texts[0], f"{kit}.yaml", KITS)))
    return {change.anchor: section_pages(laid.pages, change.anchor)[0] for change in every}


@dataclass
class Times:
    """What was measured: milliseconds of saves by what they change, microseconds of a page of memory, and
    milliseconds of counting.
    """

    saves: dict[str, list[float]] = field(default_factory=lambda: {"sheet": [], "layout": []})
    rested: list[float] = field(default_factory=list)
    at_once: list[float] = field(default_factory=list)
    counted: list[float] = field(default_factory=list)


def bench_view(kit: str, saves: int, looked: Callable[[str, Path], Any]) -> Times:
    """So many saves of sheets, and as many of layouts."""
    every = list(changes(kit))
    numbers, found, memory = pages_of(kit, every), Times(), bytearray(b"1" * _PAGES * _PAGE)
    with TemporaryDirectory() as folder:
        for image in KITS.glob("*.jpg"):
            shutil.copy(image, folder)
        spec = Path(folder, f"{kit}.yaml")
        spec.write_text(every[0].texts[0], encoding="utf-8")
        with served(spec) as address, looked(address, spec) as save:
            for kind, times in found.saves.items():
                mine = [change for change in every if change.kind == kind]
                for number, change in enumerate(islice(cycle(mine), saves)):
                    usual, *others = change.texts
                    changed = others[number // len(mine) % len(others)]
                    time.sleep(_APART)
                    times.append(save(changed, numbers[change.anchor]))
                    # Only then, or it would drive what the save needs out of the processor's caches.
                    found.rested.append(reading(memory))
                    found.at_once.append(reading(memory))
                    found.counted.append(counting())
                    print(f"{change.anchor:32} {times[-1]:4.0f} ms", flush=True)
                    time.sleep(_APART)
                    spec.write_text(usual, encoding="utf-8")
    return found


if __name__ == "__main__":
    given = [word for word in sys.argv[1:] if not word.startswith("-")]
    chosen, count = (given[0] if given else "hill-line"), int(given[1]) if given[1:] else 20
    found = bench_view(chosen, count, without_browser if "--plain" in sys.argv else in_browser)
    for kind, times in found.saves.items():
        whole = median(times)
        print(f"a {kind}: {whole:.0f} ms, {'within' if whole <= GOAL else 'NOT within'} {GOAL:g} ms")
    rested, at_once = median(found.rested), median(found.at_once)
    print(f"a page of memory: {rested:.2f} us after the rest, {at_once:.2f} us at once")
    least, most = min(found.counted), max(found.counted)
    print(f"to count: {median(found.counted):.1f} ms, {least:.1f} at the least, {most:.1f} at the most")
