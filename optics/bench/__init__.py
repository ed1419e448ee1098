"""The workshop: cameras, readings, corrections, shims, uncertainty."""
