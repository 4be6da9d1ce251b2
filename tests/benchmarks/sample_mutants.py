"""Names of mutants for a run of a bounded length, drawn by a fixed seed from those that mutmut has made.

    python tests/benchmarks/sample_mutants.py 500

The same code gives the same names.  DEVELOPERS.md says how the sample is run and what came of it.
"""

from __future__ import annotations

import json
import random
import sys
from pathlib import Path

_SEED = 9


def mutant_names(folder: Path) -> list[str]:
    """All mutants that mutmut keeps a result for in its folder, sorted."""
    kept = [json.loads(file.read_text(encoding="utf-8")) for file in folder.rglob("*.meta")]
    return sorted(name for each in kept for name in each["exit_code_by_key"])


if __name__ == "__main__":
    names = mutant_names(Path("mutants"))
    print(" ".join(sorted(random.Random(_SEED).sample(names, min(int(sys.argv[1]), len(names))))))
