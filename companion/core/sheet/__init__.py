"""A plan on paper: what to cut and lay out, every step with a box to tick, and where to measure."""
