"""The pages' side of a job: its record, and what goes into it and comes from it."""
