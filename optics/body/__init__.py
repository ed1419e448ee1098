"""The body: lens standard, film gate, thread starts and witness marks, error budget."""
