"""Floor 5: pressing. Assemblies get the direction in which every allowance lies."""
