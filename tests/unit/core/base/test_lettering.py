from gaugerod.core.base.lettering import letters


def test_letters_go_on_beyond_the_last_and_stay_apart() -> None:
    # 26 single letters, 26 x 26 pairs, then three.
    named = [letters(place) for place in range(26 + 26 * 26 + 1)]
    assert named[:3] + named[25:28] == ["a", "b", "c", "z", "aa", "ab"]
    assert named[-2:] == ["zz", "aaa"]
    assert len(set(named)) == len(named)
    assert all(name.isascii() and name.isalpha() for name in named)
