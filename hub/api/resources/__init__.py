"""One file for each resource: what it shows, what it takes, and the actions behind its operations."""
