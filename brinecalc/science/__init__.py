"""Kernels: plain floats in one fixed unit each, no text, no host."""
