"""What guessers of passwords try first: common words, rows of keys, letters written as digits.

The words are common practice, no source: gathered by us from everyday English, not from any leaked list.
"""

from __future__ import annotations

COMMON = """
    abc access account admin administrator angel april august autumn baby badger banana bank
    baseball batman beautiful birthday blossom bluebell bramble buttercup butterfly changeme charlie
    cheese chocolate christmas club coffee collect collection computer cookie
    correcthorsebatterystaple curator daisy december default demo diamond dragon eagle easter
    elephant family february flower football forest forever freedom friday friend funicle garden
    ginger guest happy harvest hello herbarium hockey holiday home hub hunter iloveyou internet
    january july june killer letmein love lovely manager march master matrix merlin michael mickey
    monday monkey mother mountain mustang nature november october orange panda pass passphrase
    passwd password peanut pepper phoenix plant pokemon princess purple qwerty rainbow region robot
    rose saturday school secret security seed seedbank september shadow silver snow soccer spring
    star starwars steward summer sunday sunflower sunshine superman sweet teacher test thank thistle
    thursday tiger tree trustno tuesday user volunteer wednesday welcome whatever wild wildflower
    winter wizard yellow you
"""
WORDS = frozenset(COMMON.split())

ROWS = "abcdefghijklmnopqrstuvwxyz 01234567890 qwertyuiop asdfghjkl zxcvbnm qwertzuiop azertyuiop"
RUNS = tuple(run for row in ROWS.split() for run in (row, row[::-1]))

SWAPS = str.maketrans("013457@$!€", "oleastasie")
