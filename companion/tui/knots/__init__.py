"""The cord cards: what the knots of each cord take."""
