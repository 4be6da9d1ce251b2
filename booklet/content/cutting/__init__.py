"""What is said and shown at the trimmer: from the cuts of a resolved kit to sections."""
