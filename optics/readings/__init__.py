"""Bench readings: from what was read to the focus error, the correction and its words."""
