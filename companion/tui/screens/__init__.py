"""Whole screens: bench, start, recap, follow, choosing."""
