"""The rules of the trade: no screen, no clock, no network."""
