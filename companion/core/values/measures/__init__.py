"""Lengths as makers write them, read exactly, and as they are shown."""
