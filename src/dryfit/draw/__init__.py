"""What is drawn: a display list, the views and plots that make one, the writers that read it."""
