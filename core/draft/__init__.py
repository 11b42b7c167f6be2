"""The draft: worked out from the tape, changed by hand, checked before cutting."""
