from datetime import datetime, timedelta

from gaugerod.cli.clock import SystemClock


def test_the_day_is_the_computers_own() -> None:
    day = SystemClock().today()
    # Midnight may strike between the two looks.
    assert datetime.now().astimezone().date() - day in {timedelta(0), timedelta(days=1)}
