"""Seed science without a database or a page: numbers in, numbers with intervals out."""
