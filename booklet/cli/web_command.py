"""What `booklet web` does: write the companion, the whole booklet for a screen as one file."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, Namespace

from booklet.cli.arguments import add_kit, add_out
from booklet.cli.asked import load_asked
from booklet.cli.exits import Exit
from booklet.cli.progress import planning, progress


def add_web(parser: ArgumentParser) -> None:
    """Declare what the command takes."""
    add_kit(parser)
    add_out(parser)


def web(options: Namespace) -> Exit:
    """Write the companion of a kit; of one with errors nothing, for somebody would cut by it."""
    from booklet.cli.report import has_errors, tell_findings
    from booklet.cli.written import tell_stale, write_set
    from booklet.placing.resolved import resolve_kit
    from booklet.proof.findings import kit_findings
    from booklet.web.companion import make_companion

    loaded = load_asked(options)
    stem = loaded.source.stem
    with progress() as tell:
        resolved = resolve_kit(loaded, begun=planning(tell))
        findings = kit_findings(resolved)
        if not has_errors(findings):
            tell("Drawing the companion")
            made = make_companion(resolved)
            written = write_set(options, stem, {f"{stem}-companion.html": made.html}, made.edition)
    if has_errors(findings):
        ended = tell_findings(findings, loaded.source)
        print("Nothing was written: mend the errors first.", file=sys.stderr)
        return ended
    print("\n".join(map(str, written)))
    tell_stale(options.out, stem, made.edition)
    return tell_findings(findings, loaded.source)
