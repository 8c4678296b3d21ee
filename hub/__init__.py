"""Funicle: a hub where clubs and schools collect seed for a regional seed bank."""
