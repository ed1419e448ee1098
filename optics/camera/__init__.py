"""The camera as described, and what lies on the bench: instruments, shims, cautions."""
