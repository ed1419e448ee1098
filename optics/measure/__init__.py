"""What is measured and how well: uncertainty, fits, verdicts and decisions."""
