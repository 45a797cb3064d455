"""Tallycord: a terminal companion for makers of knotted cord jewellery."""

__version__ = "0.1.0"
