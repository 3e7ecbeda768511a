"""What people touch: `usecases` holds a module for each question, `cli` the command line."""
