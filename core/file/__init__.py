"""The fitting file: read, checked, and written back as it came."""
