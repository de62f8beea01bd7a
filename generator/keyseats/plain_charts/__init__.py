"""Parts of the plain-key wall charts: their head, and their last sheets."""
