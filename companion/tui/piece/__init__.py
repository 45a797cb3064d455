"""Pages about one piece as a whole: its plan at hand, and what it came to."""
