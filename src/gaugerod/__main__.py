"""`python -m gaugerod`."""

from gaugerod.cli.main import main

main()
