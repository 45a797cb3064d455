"""How uncertain a piece is before anything is measured."""
