"""Forms and panels of the whole-camera answer."""
