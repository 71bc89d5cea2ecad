"""consult: judge one head of hair before any colour product is opened."""

__version__ = "0.1.0"
