"""How beads, strands and knots are drawn, as characters and colours."""
