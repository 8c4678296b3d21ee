"""When fruit will be ripe: warmth gathered, weekly looks, the seasons before, and when to look again."""
