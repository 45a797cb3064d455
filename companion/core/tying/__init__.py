"""Knots and closures drawn: where the cord runs, over and under, and what lies beside it."""
