"""Real parts that the tests stand upon."""
