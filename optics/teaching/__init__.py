"""The school: classroom, exercises, practice bench and the invented cameras they use."""
