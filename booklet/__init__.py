"""From a paper-craft kit spec to a printable cutting and assembly booklet."""

# What the program calls itself in its files.
PROGRAM = "kit-booklet"
VERSION = "0.1.0"
