"""What stands between cutting and assembly: the pockets, and pages to plan photographs by."""
