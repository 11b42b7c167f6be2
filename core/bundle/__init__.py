"""Bundles: clients' files and photos in one zip, to be carried from tablet to tablet."""
