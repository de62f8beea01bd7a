"""Parts of the half-moon wall charts: which keys and shafts stand on them."""
