"""How long dried seed keeps: the viability equation, its limits, test series, and when to test again."""
