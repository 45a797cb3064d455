"""A chart of the readings along the strand: how far it is from the plan, and where that leads."""
