"""baybook: one file per vehicle model in, a checked and printable install guide out."""

__version__ = "0.1.0"
