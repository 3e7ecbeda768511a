"""What is said of an answer, in words: command line, book and sheets say it alike."""
