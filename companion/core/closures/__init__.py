"""How each end of a strand is made: what it adds and needs, its steps in the order of the work, its findings."""
