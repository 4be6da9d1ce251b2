"""How long `booklet make` takes, against the least that drawing the same pages can take.

    python tests/benchmarks/bench_make.py [KIT] [ROUNDS]

The floor: every call on the canvas of the booklet in reading order is recorded, on its paths and texts too,
calls within calls left out, and replayed on a bare reportlab canvas.  The replay must give the same bytes
as the pages by themselves, without links, names of pages, metadata and the attached kit.
The whole of `make` (load, work out, lay out, write, impose, figures, tables) is timed before that in the same
process: the calls kept would lie in its way where it copies its process.  The medians and their ratio are
printed.  The goal is a ratio of at most 2.5.

After that `booklet check` is timed in processes of its own, against one that only starts Python.
"""

from __future__ import annotations

import gc
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager, redirect_stderr, redirect_stdout
from functools import partial
from io import BytesIO, StringIO
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter
from types import FunctionType
from typing import Any
from unittest.mock import patch

from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pathobject import PDFPathObject
from reportlab.pdfgen.textobject import PDFTextObject

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from booklet.cli.main import main, raise_gc_threshold  # noqa: E402 (a checkout need not be installed)
from booklet.pages import write  # noqa: E402
from booklet.pages.canvas import BookletCanvas  # noqa: E402
from booklet.pages.open_canvas import open_canvas  # noqa: E402

GOAL = 2.5
# What the canvas hands out to be drawn on, and then takes back as an argument.
_HANDED_OUT = (PDFPathObject, PDFTextObject)
# What our canvas takes and a bare one does not.
_OURS = {"page_of", "ways"}
# One call: the object it is made on (0 is the canvas), the method, what it is given, the object it hands out.
_Call = tuple[int, str, tuple[Any, ...], dict[str, Any], int | None]


class Recorder:
    """Keeps the outermost calls made on one canvas and on what it hands out."""

    def __init__(self) -> None:
        self.calls: list[_Call] = []
        self.options: dict[str, Any] = {}
        self._depth = 0
        self._numbers: dict[int, int] = {}
        self._kept: list[Any] = []  # so that no two objects can have the same id

    def canvas(self, out: BytesIO, **options: Any) -> BookletCanvas:
        """A canvas of the booklet, from which nothing leads anywhere, whose calls are kept from now on."""
        self.options = {name: value for name, value in options.items() if name not in _OURS}
        made = BookletCanvas(out, page_of=options["page_of"], **self.options)
        self._number(made)
        return made

    def wrapped(self, method: Callable[..., Any]) -> Callable[..., Any]:
        """A method that is kept where it is called from outside."""

        def call(on: Any, *given: Any, **named: Any) -> Any:
            number = self._numbers.get(id(on))
            if self._depth or number is None:
                return method(on, *given, **named)
            self._depth += 1
            try:
                handed = method(on, *given, **named)
            finally:
                self._depth -= 1
            out = self._number(handed) if isinstance(handed, _HANDED_OUT) else None
            self.calls.append((number, method.__name__, tuple(map(self._known, given)), named, out))
            return handed

        return call

    def replay(self) -> bytes:
        """The PDF that the same calls make on a bare canvas."""
        out = BytesIO()
        known: dict[int, Any] = {0: Canvas(out, **self.options)}
        for number, name, given, named, handed in self.calls:
            given = tuple(known[one.number] if type(one) is _Known else one for one in given)
            made = getattr(known[number], name)(*given, **named)
            if handed is not None:
                known[handed] = made
        return out.getvalue()

    def _number(self, one: Any) -> int:
        self._kept.append(one)
        self._numbers[id(one)] = len(self._kept) - 1
        return len(self._kept) - 1

    def _known(self, given: Any) -> Any:
        number = self._numbers.get(id(given))
        return given if number is None else _Known(number)


class _Known:
    """Stands for an object that the canvas handed out."""

    def __init__(self, number: int) -> None:
        self.number = number


@contextmanager
def recording() -> Iterator[Recorder]:
    """Keep what is drawn on the booklet's canvas for a while."""
    recorder = Recorder()
    kept: Any = recorder.canvas
    with ExitStack() as stack:
        stack.enter_context(
            patch.object(write, "open_canvas", lambda _, *given, **named: open_canvas(kept, *given, **named))
        )
        for added in ("name_pages", "describe_file", "attach_files"):
            stack.enter_context(patch.object(write, added, lambda *_: None))
        for kind in dict.fromkeys(base for drawn in (Canvas, *_HANDED_OUT) for base in drawn.__mro__[:-1]):
            for name, method in vars(kind).copy().items():
                if isinstance(method, FunctionType) and name != "__init__":
                    stack.enter_context(patch.object(kind, name, recorder.wrapped(method)))
        yield recorder


def make(kit: str, out: Path) -> bytes:
    """Run the command as a user does, without its output; returns the booklet in reading order."""
    with redirect_stdout(StringIO()), redirect_stderr(StringIO()):
        code = main(["make", kit, "--out", str(out)])
    if code:
        sys.exit(f"booklet make {kit} ended with {code}")
    return (out / f"{Path(kit).stem}-read.pdf").read_bytes()


def timed(work: Callable[[], Any]) -> float:
    """How long a piece of work takes, in milliseconds."""
    gc.collect()  # so that nobody pays for what another left behind
    start = perf_counter()
    work()
    return (perf_counter() - start) * 1000


def bench_make(kit: str, rounds: int, out: Path) -> None:
    """Print the medians of `make` and of its floor, and their ratio."""
    make(kit, out)  # so that what is imported is there
    whole = [timed(partial(make, kit, out / str(number))) for number in range(rounds)]
    with recording() as recorder:
        made = make(kit, out)
    if recorder.replay() != made:
        sys.exit("the replay does not give the booklet's bytes: some calls were missed")
    floor = [timed(recorder.replay) for _ in range(rounds)]
    ratio = median(whole) / median(floor)
    print(f"{kit}: {len(recorder.calls)} calls on the canvas, {len(made) // 1024} KiB")
    print(f"make   {median(whole):7.0f} ms  (fastest {min(whole):.0f} ms, median of {rounds})")
    print(f"floor  {median(floor):7.0f} ms  (fastest {min(floor):.0f} ms)")
    print(f"ratio  {ratio:7.2f}     ({'within' if ratio <= GOAL else 'above'} the goal of {GOAL})")


def bench_check(kit: str, rounds: int) -> None:
    """Print the medians of `booklet check` in a fresh process, and of Python alone."""

    def run(*arguments: str) -> None:
        subprocess.run([sys.executable, *arguments], cwd=ROOT, stdout=subprocess.DEVNULL, check=True)

    check, python = [], []
    for _ in range(rounds):
        check.append(timed(lambda: run("-m", "booklet", "check", kit)))
        python.append(timed(lambda: run("-c", "pass")))
    print(f"check  {median(check):7.0f} ms  in a fresh process; Python alone {median(python):.0f} ms")


if __name__ == "__main__":
    chosen = sys.argv[1] if len(sys.argv) > 1 else "hill-line"
    times = int(sys.argv[2]) if len(sys.argv) > 2 else 5
    raise_gc_threshold()
    with TemporaryDirectory() as folder:
        bench_make(chosen, times, Path(folder))
    bench_check(chosen, 2 * times)
