"""The bench: everything there is to go on with."""
