"""Forms and panels of classroom, exercises and practice bench."""
