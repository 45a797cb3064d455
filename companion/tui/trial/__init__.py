"""The first two minutes: a sample piece that leaves nothing behind, and a line that says what to press."""
