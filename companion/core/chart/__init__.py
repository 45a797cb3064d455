"""The readings along the strand: how far it is from its plan, and where that leads."""
