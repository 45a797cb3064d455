"""The design page: a design made without writing a file."""
