"""Practice cameras with hidden faults, their readings, and hands that follow a plan."""
