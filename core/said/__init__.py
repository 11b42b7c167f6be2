"""What is said of a plan: steps, sums, cautions, what follows."""
