"""Papers as PDF: a template beside the code that uses it, data as data, the same bytes everywhere."""
