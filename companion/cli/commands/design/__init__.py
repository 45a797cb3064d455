"""Commands that need a design, or none, and no piece; they write nothing."""
