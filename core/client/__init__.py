"""A client's page, what can be changed on it, and the day book."""
