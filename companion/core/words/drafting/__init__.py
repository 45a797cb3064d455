"""What is said of a design that is being made: its parts, a place on its picture, what would let it come out."""
