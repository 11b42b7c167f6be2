"""The body's measurements, and taking them with the tape."""
