"""Typed text that stands for figures: fields, parts of a document, places and days."""
