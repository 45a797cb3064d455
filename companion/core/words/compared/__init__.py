"""Designs side by side, and what a cord makes, in words."""
