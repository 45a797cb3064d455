"""What happens to a piece: its events, and the piece as they leave it."""
