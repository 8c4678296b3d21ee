"""The region: stages, gaps, maps. It only reads."""
