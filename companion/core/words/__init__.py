"""Sentences for the maker, the same on every screen and in every command."""
