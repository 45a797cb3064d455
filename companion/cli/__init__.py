"""The commands: parse, call the workshop, print."""
