"""Forms and panels of the rangefinder and its cam."""
