"""A busy machine is no reason to call a property false: examples have no deadline."""

from hypothesis import settings

settings.register_profile("no clock", deadline=None)
settings.load_profile("no clock")
