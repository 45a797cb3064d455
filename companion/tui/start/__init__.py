"""Beginning a piece of a design, or going on with one of several."""
