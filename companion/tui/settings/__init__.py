"""The settings page."""
