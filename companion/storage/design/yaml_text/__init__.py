"""The text of a design file: YAML, read strictly, and what is wrong with it in words."""
