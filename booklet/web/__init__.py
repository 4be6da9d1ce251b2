"""The content on a screen: one page that needs no other file."""
