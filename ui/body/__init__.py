"""Forms and panels of standard, gate, witness marks and budget."""
