"""Answers as plain text, and the commands that print them."""
