"""Forms and panels of depth of field and scales."""
