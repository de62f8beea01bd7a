"""Renderers put a page model on paper or screen. They import nothing of ours but the model."""
