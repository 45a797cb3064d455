"""What may have gone wrong, and how likely each of it is."""
