"""Calculators: the seed science as people use it, each one page, one operation of the API, one command."""
