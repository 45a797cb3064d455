"""How beads, strands and knots look, as characters and colours."""
