"""A neutral figure, and where the tape goes on it."""
