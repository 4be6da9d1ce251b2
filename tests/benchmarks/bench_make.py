"""How long `booklet make` takes, against the least that drawing the same pages can take.

    python -m tests.benchmarks.bench_make [KIT] [ROUNDS]

The floor is a process that does nothing but draw: every call that the booklet makes on its canvas, on its
texts and paths, is recorded in reading order, calls within calls left out, and replayed on a bare reportlab
canvas.  Before that, the replay with paths as the booklet hands them over, each in one piece, must give the
same bytes as the pages by themselves, without links, names of pages, metadata and the attached kit; what is
timed draws paths by reportlab's own calls.  Processes are fresh, floor and `make` in pairs; their time is
that of the processor, of the process that `make` forks too.
"""

from __future__ import annotations

import pickle
import resource
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager, redirect_stderr, redirect_stdout
from dataclasses import dataclass
from io import BytesIO, StringIO
from pathlib import Path
from statistics import median
from time import process_time
from types import FunctionType
from typing import Any
from unittest.mock import patch

from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pathobject import PDFPathObject
from reportlab.pdfgen.textobject import PDFTextObject

from booklet.drawing.shapes.fonts import Font
from booklet.drawing.writers.pdf_fonts import pdf_font_name

ROOT = Path(__file__).resolve().parents[2]
GOAL = 2.0
# What the canvas hands out to be drawn on, and then takes back as an argument.
_HANDED_OUT = (PDFPathObject, PDFTextObject)
# What our canvas takes and a bare one does not.
_OURS = {"page_of", "ways"}
_TO_PATHS = {"m": "moveTo", "l": "lineTo", "c": "curveTo", "h": "close"}
# One call: the object it is made on (0 is the canvas), the method, what it is given, the object it hands out.
_Call = tuple[int, str, tuple[Any, ...], dict[str, Any], int | None]


class _Known:
    """Stands for an object that the canvas handed out."""

    def __init__(self, number: int) -> None:
        self.number = number


class _PathWords:
    """A path in the words of PDF, as the canvas is given it."""

    def __init__(self, code: str) -> None:
        self.code = code

    def getCode(self) -> str:  # noqa: N802 (the canvas asks for it by this name)
        """The words."""
        return self.code

    def called(self, canvas: Canvas) -> PDFPathObject:
        """The same path by reportlab's own calls."""
        path: PDFPathObject = canvas.beginPath()
        numbers: list[float] = []
        for word in self.code.split():
            if word in _TO_PATHS:
                getattr(path, _TO_PATHS[word])(*numbers)
                numbers = []
            else:
                numbers.append(float(word))
        return path


@dataclass
class Recording:
    """All calls of a booklet on its canvas, the options of that, and the bytes that came of it."""

    calls: list[_Call]
    options: dict[str, Any]
    made: bytes = b""

    def replay(self, ready: Callable[[_PathWords, Canvas], Any]) -> bytes:
        """The PDF that the same calls make on a bare canvas, its paths made by `ready`."""
        out = BytesIO()
        known: dict[int, Any] = {0: Canvas(out, **self.options)}
        for number, name, given, named, handed in self.calls:
            made = getattr(known[number], name)(*(_given(one, known, ready) for one in given), **named)
            if handed is not None:
                known[handed] = made
        return out.getvalue()


def _given(one: Any, known: dict[int, Any], ready: Callable[[_PathWords, Canvas], Any]) -> Any:
    if type(one) is _Known:
        return known[one.number]
    return ready(one, known[0]) if type(one) is _PathWords else one


class _Recorder:
    """Keeps the outermost calls made on one canvas and on what it hands out."""

    def __init__(self, make_canvas: Callable[..., Any]) -> None:
        self.recording = Recording([], {})
        self._make_canvas = make_canvas
        self._depth = 0
        self._numbers: dict[int, int] = {}
        self._kept: list[Any] = []  # so that no two objects can have the same id

    def canvas(self, out: BytesIO, **options: Any) -> Any:
        """A canvas of the booklet, from which nothing leads anywhere, whose calls are kept from now on."""
        usual = {name: value for name, value in options.items() if name not in _OURS}
        self.recording.options = usual
        made = self._make_canvas(out, page_of=options["page_of"], **usual)
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
            self.recording.calls.append((number, method.__name__, tuple(map(self._known, given)), named, out))
            return handed

        return call

    def _number(self, one: Any) -> int:
        self._kept.append(one)
        self._numbers[id(one)] = len(self._kept) - 1
        return len(self._kept) - 1

    def _known(self, given: Any) -> Any:
        number = self._numbers.get(id(given))
        if number is not None:
            return _Known(number)
        return _PathWords(given.getCode()) if type(given).__name__ == "PathWords" else given


@contextmanager
def _recording() -> Iterator[_Recorder]:
    """Keep what is drawn on the booklet's canvas for a while."""
    from booklet.pages import write
    from booklet.pages.canvas import BookletCanvas
    from booklet.pages.open_canvas import open_canvas

    recorder = _Recorder(BookletCanvas)
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


def record(kit: str) -> Recording:
    """What `make` draws.  Ends the program where a replay does not give the same bytes."""
    from booklet.cli.main import main

    with tempfile.TemporaryDirectory() as folder:
        with _recording() as recorder, redirect_stdout(StringIO()), redirect_stderr(StringIO()):
            main(["make", kit, "--out", folder])
        recorder.recording.made = (Path(folder) / f"{Path(kit).stem}-read.pdf").read_bytes()
    if recorder.recording.replay(lambda path, _: path) != recorder.recording.made:
        sys.exit("the replay does not give the booklet's bytes: some calls were missed")
    return recorder.recording


def cpu(*command: str, cwd: Path = ROOT) -> float:
    """The seconds of processor time of a command in a process of its own, its output thrown away."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(command, cwd=cwd, capture_output=True, check=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def make_seconds(kit: str, cwd: Path = ROOT) -> float:
    """The processor time of `booklet make` of a checkout, as a fresh process."""
    with tempfile.TemporaryDirectory() as folder:
        return cpu(sys.executable, "-m", "booklet", "make", kit, "--out", folder, cwd=cwd)


def floor_seconds(recorded: Path) -> float:
    """The processor time of a fresh process that imports reportlab, and draws; without reading the calls."""
    command = [sys.executable, "-m", "tests.benchmarks.bench_make", "--replay", str(recorded)]
    return float(subprocess.run(command, cwd=ROOT, capture_output=True, check=True, text=True).stdout)


def _replay(recorded: Path) -> None:
    for font in Font:
        pdf_font_name(font)
    started = process_time()
    recording: Recording = pickle.loads(recorded.read_bytes())
    read = process_time()
    recording.replay(_PathWords.called)
    print(started + process_time() - read)


def bench_make(kit: str, rounds: int) -> tuple[float, float, int]:
    """The medians of `make` and of its floor in seconds, and how many calls that draws."""
    recording = record(kit)
    with tempfile.TemporaryDirectory() as folder:
        recorded = Path(folder) / "calls"
        recorded.write_bytes(pickle.dumps(recording))
        make_seconds(kit)  # so that all is compiled
        pairs = [(make_seconds(kit), floor_seconds(recorded)) for _ in range(rounds)]
    made, floor = (median(each) for each in zip(*pairs, strict=True))
    return made, floor, len(recording.calls)


if __name__ == "__main__":
    sys.modules["tests.benchmarks.bench_make"] = sys.modules["__main__"]
    if sys.argv[1:2] == ["--replay"]:
        _replay(Path(sys.argv[2]))
        sys.exit()
    chosen = sys.argv[1] if len(sys.argv) > 1 else "hill-line"
    made, floor, count = bench_make(chosen, int(sys.argv[2]) if len(sys.argv) > 2 else 5)
    print(f"{chosen}: {count} calls on the canvas; make {made:.2f} s, floor {floor:.2f} s")
    print(f"ratio {made / floor:.2f}: {'within' if made / floor <= GOAL else 'NOT within'} {GOAL:g}")
