"""A design while it is being made on the screen: what is typed, its pattern, and the file that it comes to."""
