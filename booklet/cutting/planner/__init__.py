"""Planning edge-to-edge cuts: from the pieces wanted and the sheets that are there to cut steps."""
