"""The commands of `barrelside`, one module each; see `assistant/lazy_group.py`."""
