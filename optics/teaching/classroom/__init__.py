"""What the classroom teaches: its sections, typical figures, and figures said in shop units."""
