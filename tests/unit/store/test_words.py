from gaugerod.store.words import sentences


def test_sentences_go_by_their_dotted_keys() -> None:
    text = '[a]\nb = "one"\n[a.c]\nd-e = "two"\n'
    assert sentences(text) == {"a.b": "one", "a.c.d-e": "two"}
