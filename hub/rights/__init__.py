"""Who may do what: a table of small questions, without database or web."""
