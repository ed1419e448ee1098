"""The server around the pages: start, network door, warm-up, opening page."""
