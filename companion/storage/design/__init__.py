"""Design files: from bytes to a Design, or to everything that is wrong with them. pydantic and yaml come in on use."""
