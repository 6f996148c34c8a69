"""What the program says in English, said again in the language of the reader."""
