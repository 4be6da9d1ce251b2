"""Send mutants through `check` and `make`, and print what was found.

    nice -n 10 python -m tests.fuzz --mutants 10000 --seed 1 [--minutes 60] [--seconds 5]
        [--figures-every 20] [--keep DIR]

The same seed gives the same mutants.  What goes wrong is printed once for each kind, with how often, and with
`--keep` each such spec is kept beside what was told.
"""

from __future__ import annotations

import argparse
from pathlib import Path

from tests.fuzz.campaign import run_campaign


def main() -> int:
    reader = argparse.ArgumentParser(
        prog="python -m tests.fuzz", description=(__doc__ or "").partition("\n")[0]
    )
    reader.add_argument("--mutants", type=int, default=300, metavar="N", help="how many (default: 300)")
    reader.add_argument("--seed", type=int, default=1, metavar="N", help="which (default: 1)")
    reader.add_argument("--minutes", type=float, metavar="M", help="stop after so long")
    reader.add_argument(
        "--seconds",
        type=int,
        default=5,
        metavar="S",
        help="the most of the processor that each may take (default: 5)",
    )
    reader.add_argument(
        "--figures-every", type=int, default=20, metavar="N", help="write all files of each Nth"
    )
    reader.add_argument(
        "--keep", type=Path, metavar="DIR", help="keep the specs that something is wrong with"
    )
    options = reader.parse_args()
    found = run_campaign(
        options.mutants,
        options.seed,
        options.figures_every,
        minutes=options.minutes,
        keep=options.keep,
        seconds=options.seconds,
    )
    print("\n".join(found.lines()))
    return 1 if found.faulty else 0


if __name__ == "__main__":
    raise SystemExit(main())
