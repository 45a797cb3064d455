"""Following a piece: the screen, the piece that is open on it, and the questions about it."""
