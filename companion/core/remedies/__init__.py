"""Changes that a maker could really make to what is left of a piece, a file for each sort of them."""
