"""Sewn through: every pattern cut, sewn and measured from its printed facts alone.

The modules here read nothing but the JSON of `booklet facts` and share no code with the booklet: they
cut virtual cloth by the printed figures, sew by the stated steps with the stated allowance, and measure.
Each gives complaints in plain words; none is a sound pattern.
"""
