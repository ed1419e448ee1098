"""One browser page a module."""
