"""Floor 4: sewing. Tilings become assemblies: the order of joins, runs, turns, ends and threads."""

from booklet.sewing.stage import assemble as assemble
