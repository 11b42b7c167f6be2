"""A fitting as it is logged: begun, pinned, read off, marked, moved in, hemmed, and told her."""
