"""What is drawn: a display list, the views and plots that make one, and the writers that read it."""
