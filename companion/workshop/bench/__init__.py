"""What the bench needs besides its rows."""
