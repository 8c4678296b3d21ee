"""Who did what to what, append-only and chained."""
