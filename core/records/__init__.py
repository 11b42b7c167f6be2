"""What a garment, a fitting and an answer are made of."""
