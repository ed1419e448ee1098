"""Finding what is wrong: all readings weighed together, and the plan that follows."""
