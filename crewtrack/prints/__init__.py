"""Paper: a value in, the bytes of a PDF out."""
