"""From a paper-craft kit spec to a printable cutting and assembly booklet."""

VERSION = "0.1.0"
