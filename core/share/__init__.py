"""Pins, and sharing out what is needed over the seams."""
