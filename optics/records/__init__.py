"""Job documents: the versioned schema and what reads and writes it."""
