"""Commands for what is kept: exports, rescue, settings."""
