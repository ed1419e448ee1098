"""Drawings and plots, made from results."""
