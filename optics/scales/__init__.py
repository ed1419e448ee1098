"""The focusing scale and depth of field: tables, marks, fits, layouts and their words."""
