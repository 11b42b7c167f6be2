"""The garment as it is sewn, beside what is wanted."""
