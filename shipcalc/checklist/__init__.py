"""What is left to do, by whom and by when."""
