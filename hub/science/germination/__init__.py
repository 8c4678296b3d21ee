"""How much seed came up, when, how evenly, and whether lots or treatments differ in it."""
