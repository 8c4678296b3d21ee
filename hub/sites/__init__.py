"""Land with its owner's permission, permits, populations and their censuses."""
