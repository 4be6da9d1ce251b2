"""What the layouts' pages say and show."""
