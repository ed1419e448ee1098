"""The catalogue: every relation as data, one topic a module."""
