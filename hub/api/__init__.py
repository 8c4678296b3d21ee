"""The JSON API, /api/v1: one file per resource."""
