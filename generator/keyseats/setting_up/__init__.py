"""The setting-up wall chart: what is the same for every key, in the order of the work."""
