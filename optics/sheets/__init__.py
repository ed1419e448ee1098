"""PDF sheets, drawn from results only."""
