"""YAML to Fit: node marks kept, every error of every file at once."""
