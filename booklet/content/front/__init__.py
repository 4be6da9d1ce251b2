"""What stands before cutting: the cover, the welcome, the box and the pile, tools and cautions."""
