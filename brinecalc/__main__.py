"""``python -m brinecalc`` is the command line."""

from brinecalc.cli import main

if __name__ == "__main__":
    main()
