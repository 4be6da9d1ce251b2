"""What the booklet says and shows, as plain data."""
