"""People and how they sign in: passwords, sessions that end, tokens, letters by mail."""
