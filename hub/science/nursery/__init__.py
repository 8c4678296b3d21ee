"""How many seeds to sow, so that enough plants stand in the end."""
