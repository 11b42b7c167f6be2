"""Pieces and parts drawn to scale."""
