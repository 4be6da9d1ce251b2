"""Mutants of the demo kits and of the starter, through `check` and `make` within limits."""
