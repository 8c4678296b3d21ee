"""The plants themselves: names, ranks, traits, ecoregions and the wanted list."""
