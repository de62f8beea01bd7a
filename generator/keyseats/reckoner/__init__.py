"""Ready reckoners: one key in one nominal shaft, its depths by the shaft as measured."""
