"""Setting up a coupled rangefinder: what it can tell, zero and gain, and where to set it."""
