"""A group's claim on one species in one region for one season."""
