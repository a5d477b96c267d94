"""Brine formulation as functions: see brinecalc.registry for the worksheet functions."""
