"""`python -m sitegen` is the `trayside` command."""

from sitegen.cli import main

if __name__ == "__main__":
    main(prog_name="trayside")
