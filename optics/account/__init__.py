"""What is said of a job, for every face that says it."""
