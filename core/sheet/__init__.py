"""A plan on paper: the sheet for the sewing table, and strips at full size to lay along a seam."""
