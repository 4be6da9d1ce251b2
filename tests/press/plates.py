"""What other programs make of a press file: qpdf, poppler, Ghostscript, its plates.

Where they are missing, a test of theirs is skipped, but not in continuous integration: there it fails.
"""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image as Pixels

COLOURS = ("Cyan", "Magenta", "Yellow")
INKS = (*COLOURS, "Black")
Plate = NDArray[np.uint8]

_MISSING = [tool for tool in ("gs", "pdfinfo", "pdffonts", "qpdf") if shutil.which(tool) is None]
needs_tools = pytest.mark.skipif(
    bool(_MISSING) and not os.environ.get("CI"), reason=f"not installed: {', '.join(_MISSING)}"
)


def said_by(*command: str | Path) -> str:
    """What a program prints; it must end well."""
    done = subprocess.run([str(part) for part in command], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout + done.stderr


def plates_of(file: Path, folder: Path, dots: int = 50, last: int = 99) -> list[dict[str, Plate]]:
    """For each page, of each ink with a plate, how much of it lies where: 0 to 255, without blurred edges.

    Ghostscript must find nothing wrong with the file.
    """
    folder.mkdir()
    complaints = said_by(
        *("gs", "-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-dPDFSTOPONERROR", "-sDEVICE=tiffsep"),
        *(f"-r{dots}", f"-dLastPage={last}", "-dTextAlphaBits=1", "-dGraphicsAlphaBits=1"),
        f"-sOutputFile={folder / 'p-%03d.tif'}",
        file,
    )
    assert not complaints
    whole = sorted(path for path in folder.glob("p-*.tif") if "(" not in path.name)
    return [
        {
            plate.name.split("(")[1].split(")")[0]: 255 - np.asarray(Pixels.open(plate))
            for plate in folder.glob(f"{path.stem}(*).tif")
        }
        for path in whole
    ]
