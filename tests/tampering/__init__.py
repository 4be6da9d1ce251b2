"""A finished PDF broken on purpose, one change at a time: what the proof is to catch."""
