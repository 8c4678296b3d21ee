"""Regression of counts out of counts, for whatever else in the science needs it."""
