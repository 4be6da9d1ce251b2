"""The booklet's words in English."""
