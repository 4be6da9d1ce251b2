"""What stands at the end: room to write, the keepsake, the back cover."""
