"""Where species grow and where their seed was gathered, and how well a bank represents them."""
