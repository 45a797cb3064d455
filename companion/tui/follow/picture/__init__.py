"""The pictures of the follow screen: the present step, and the strand in letters or drawn."""
