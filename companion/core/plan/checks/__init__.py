"""What a maker should see to before the first knot."""
