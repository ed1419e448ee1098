"""The bench's pages, in the order they stand at the top."""

# Title, and module and address, of each page. A page is imported when it is first shown, so
# that the opening page does not wait for the others' plots and sheets.
PAGES = {
    "Correction": "correction",
    "Depth and scales": "depth_and_scales",
    "Rangefinder": "rangefinder",
    "Standard and marks": "standard_and_marks",
    "Exercises": "exercises",
}
