"""The words that garments and sources are found by: one interface, and two engines that answer alike.

What is looked in is folded and parted into words here, not by a database (`words`), so that both engines find
alike, and filed on a card (`filing`). An engine only looks the words up and ranks what it found (`engine`).
Snippets are cut from the text as written (`snippet`). `manage.py reindex` writes all cards anew.
"""
