"""What the build is made of: what pages depend on, why one is stale, and files placed whole."""
