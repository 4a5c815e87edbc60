"""Faults of the booklet that the checks have found and that are not mended yet: pattern, check, fault.

Each is expected to fail, strictly: once mended, its line here turns the test red and is taken out.
"""

KNOWN: dict[tuple[str, str], str] = {}
