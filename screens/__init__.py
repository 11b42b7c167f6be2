"""What the dressmaker sees and touches; the arithmetic is all in ``core``."""
