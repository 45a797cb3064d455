"""What would put a piece right, and what each change would give."""
