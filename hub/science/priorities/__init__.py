"""Which species matter most, what to offer next, and who could take it."""
