"""The calculator: readings in, focus error, diagnosis, correction, sheet out."""
