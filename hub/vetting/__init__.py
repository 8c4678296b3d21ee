"""What groups hand in, what the checks find, and the curator's bench."""
