"""Distributions, mixtures and small linear algebra: mathematics without a word of the craft."""
