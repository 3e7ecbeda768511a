"""What goes on when: the order of assembly, what can still be reached, what stops here."""
