"""The terminal app."""

import os

# Textual reads this when it is loaded: how often a second it paints at most, 60 times otherwise. A step's number is
# painted by itself, and what belongs to it stands there a 240th of a second later.
os.environ.setdefault("TEXTUAL_FPS", "240")
