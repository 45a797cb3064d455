"""The same piece made otherwise, and what a cord makes of it: each planned as any design is."""
