"""What holds for every test."""

from hypothesis import settings

# A machine that is busy with something else is slow; that breaks no promise.
settings.register_profile("house", deadline=None)
settings.load_profile("house")
