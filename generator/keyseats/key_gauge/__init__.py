"""The key gauge: outlines of keys at true scale to lay a key on, and bars that prove the scale."""
