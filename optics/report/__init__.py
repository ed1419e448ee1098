"""A whole job told from end to end, for sheets and pages alike."""
