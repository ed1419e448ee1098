"""Drawing in millimetres: a page, what stands on it, and how it becomes PDF and SVG."""
