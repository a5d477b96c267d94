"""LibreOffice Calc: one extension file (.oxt), generated whole from the registry.

One idea: nothing about a function is written here. ``build`` asks the registry for every function and derives the
UNO types, the function wizard's texts and the component from it; ``addin`` and ``heal`` are the two small UNO
components that run inside LibreOffice; ``install`` and ``session`` drive a LibreOffice from outside.
"""
