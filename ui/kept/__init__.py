"""What a browser and the records keep for the pages: drafts, the open job, the library."""
