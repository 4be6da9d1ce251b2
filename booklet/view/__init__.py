"""The live look: a booklet's pages on a screen, again at each save of its spec."""
