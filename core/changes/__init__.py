"""The changes to every layer: the plan."""
