"""Paths in the words of SVG, as short as they can be: relative, without what a reader can do without."""

from __future__ import annotations

from collections.abc import Iterable

from booklet.drawing.shapes.figure import Segment


class Numbers(dict[int, str]):
    """Numbers as text, counted in steps of a power of ten below one; each is put in words once."""

    def __init__(self, decimals: int) -> None:
        self.decimals = decimals
        self._steps: int = 10**decimals

    def __missing__(self, steps: int) -> str:
        text = str(abs(steps) / self._steps).removesuffix(".0")
        if len(text) > 1:
            text = text.removeprefix("0")
        self[steps] = text = f"-{text}" if steps < 0 else text
        return text

    def steps(self, value: float) -> int:
        """The number of steps nearest to a value."""
        return round(value * self._steps)

    def text(self, value: float) -> str:
        """A value as text, to the nearest step."""
        return self[round(value * self._steps)]

    def path(self, segments: Iterable[Segment]) -> str:
        """The data of a path.  Each point is rounded by itself, so that nothing adds up along the way."""
        parts: list[str] = []
        count, x, y = self._steps, 0, 0
        start = x, y
        before = ""
        for segment in segments:
            kind = segment[0]
            if len(segment) == 7:
                _, x1, y1, x2, y2, end_x, end_y = segment
                to_x, to_y = round(end_x * count), round(end_y * count)
                first = f"{self[round(x1 * count) - x]} {self[round(y1 * count) - y]}"
                second = f"{self[round(x2 * count) - x]} {self[round(y2 * count) - y]}"
                drawn = f"{first} {second} {self[to_x - x]} {self[to_y - y]}"
                x, y = to_x, to_y
            elif len(segment) == 3:
                dx, dy = round(segment[1] * count) - x, round(segment[2] * count) - y
                x, y = x + dx, y + dy
                if kind == "M":
                    start, before = (x, y), ""  # what follows it unsaid are lines, not moves
                elif not dx or not dy:
                    kind = "V" if dy else "H"
                drawn = self[dy] if kind == "V" else self[dx] if kind == "H" else f"{self[dx]} {self[dy]}"
            else:
                x, y = start
                drawn, before = "", ""
            parts += [" " if kind == before else _LETTERS[kind], drawn]
            before = kind
        return "".join(parts).replace(" -", "-")


# Each segment by its letter; one that follows another of its kind goes without.
_LETTERS = {"M": "m", "L": "l", "H": "h", "V": "v", "C": "c", "Z": "z"}
