"""How dry seed grows in air, how much desiccant that takes, and whether the hygrometer tells the truth."""
