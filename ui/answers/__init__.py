"""Answers as the pages show them."""
