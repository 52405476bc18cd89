"""How the words that the network knows are pronounced, in its own phones.

A general model shares its phones between all words; number words are few and
everything hangs on them, so the network gives them phones that no other word
uses, and so it does to the shortest orders and places. Teens and tens share their stems, and the endings of all teens and of
all tens are shared, so that each is heard often enough.
"""
import os

SHIPPED = os.environ.get('POCKETSPHINX_MODEL', '/usr/share/pocketsphinx/model/en-us')
TOP = os.path.join(os.path.dirname(os.path.abspath(__file__)), *[os.pardir] * 3)
# A word is said as the first of these that has it tells.
DICTIONARIES = [f'{TOP}/grammars/trade.dict', f'{SHIPPED}/cmudict-en-us.dict']

# A phone is SOUND:OWNER; in the network and its dictionary, zSOUND_OWNER.
_SPOKEN = {
    'zero': ['Z:0 IH:0 R:0 OW:0', 'Z:0 IY:0 R:0 OW:0'],
    'oh': ['OW:O'],
    'one': ['W:1 AH:1 N:1', 'HH:1 W:1 AH:1 N:1'],
    'two': ['T:2 UW:2'],
    'three': ['TH:3 R:3 IY:3'],
    'four': ['F:4 AO:4 R:4'],
    'five': ['F:5 AY:5 V:5'],
    'six': ['S:6 IH:6 K:6 S:6b'],
    'seven': ['S:7 EH:7 V:7 AH:7 N:7'],
    'eight': ['EY:8 T:8'],
    'nine': ['N:9 AY:9 N:9b'],
    'ten': ['T:10 EH:10 N:10'],
    'eleven': ['IH:11 L:11 EH:11 V:11 AH:11 N:11', 'IY:11 L:11 EH:11 V:11 AH:11 N:11'],
    'twelve': ['T:12 W:12 EH:12 L:12 V:12'],
    'thirteen': ['TH:x3 ER:x3 T:tn IY:tn N:tn'],
    'fourteen': ['F:x4 AO:x4 R:x4 T:tn IY:tn N:tn'],
    'fifteen': ['F:x5 IH:x5 F:x5b T:tn IY:tn N:tn'],
    'sixteen': ['S:x6 IH:x6 K:x6 S:x6b T:tn IY:tn N:tn'],
    'seventeen': ['S:x7 EH:x7 V:x7 AH:x7 N:x7 T:tn IY:tn N:tn'],
    'eighteen': ['EY:x8 T:tn IY:tn N:tn'],
    'nineteen': ['N:x9 AY:x9 N:x9b T:tn IY:tn N:tn'],
    'twenty': ['T:x2 W:x2 EH:x2 N:x2 T:ty IY:ty', 'T:x2 W:x2 EH:x2 N:x2 IY:ty'],
    'thirty': ['TH:x3 ER:x3 D:ty IY:ty', 'TH:x3 ER:x3 T:ty IY:ty'],
    'forty': ['F:x4 AO:x4 R:x4 T:ty IY:ty'],
    'fifty': ['F:x5 IH:x5 F:x5b T:ty IY:ty'],
    'sixty': ['S:x6 IH:x6 K:x6 S:x6b T:ty IY:ty'],
    'seventy': ['S:x7 EH:x7 V:x7 AH:x7 N:x7 T:ty IY:ty', 'S:x7 EH:x7 V:x7 AH:x7 N:x7 IY:ty'],
    'eighty': ['EY:x8 T:ty IY:ty'],
    'ninety': ['N:x9 AY:x9 N:x9b T:ty IY:ty'],
    'yes': ['Y:yes EH:yes S:yes'],
    'no': ['N:no OW:no'],
    'stop': ['S:stop T:stop AA:stop P:stop'],
    'go': ['G:go OW:go'],
    'on': ['AA:on N:on', 'AO:on N:on'],
    'off': ['AO:off F:off'],
    'up': ['AH:up P:up'],
    'down': ['D:down AW:down N:down'],
    'left': ['L:left EH:left F:left T:left'],
    'right': ['R:rite AY:rite T:rite'],
}
# Words of the recordings that the shipped dictionary lacks.
_EXTRA = {'rubout': ['R AH B AW T']}
GENERAL = ('AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY '
           'P R S SH T TH UH UW V W Y Z ZH').split()


def _name(phone):
    sound, owner = phone.split(':')
    return f'z{sound}_{owner}'


OWN_PHONES = sorted({_name(p) for ways in _SPOKEN.values()
                        for way in ways for p in way.split()})
PHONES = ['SIL', *GENERAL, *OWN_PHONES]


def outputs():
    """Phone -> its outputs of the network: three a phone, one for silence."""
    found, n = {}, 0
    for phone in PHONES:
        size = 1 if phone == 'SIL' else 3
        found[phone] = list(range(n, n + size))
        n += size
    return found


def _entries(path):
    """(word, way of saying it) of a pronouncing dictionary."""
    for line in open(path, encoding='utf-8'):
        head, _, way = line.split('#')[0].strip().partition(' ')
        if way:
            yield head.split('(')[0], way.strip()


def dictionary_words():
    """Every word of which is known how it is said."""
    return {word for path in DICTIONARIES for word, _ in _entries(path)} | set(_EXTRA)


def pronunciations(words, own=True):
    """word -> its ways of being said; own=False: in the general model's phones."""
    ways = {w: list(v) for w, v in _EXTRA.items() if w in words}
    for path in DICTIONARIES:
        new = {}
        for word, way in _entries(path):
            if word in words and word not in _SPOKEN and word not in ways:
                new.setdefault(word, []).append(way)
        ways.update(new)
    for word in set(words) & set(_SPOKEN):
        ways[word] = [' '.join(_name(p) if own else p.split(':')[0] for p in way.split())
                      for way in _SPOKEN[word]]
    missing = sorted(set(words) - set(ways))
    if missing:
        raise ValueError(f'no pronunciation for {" ".join(missing)}')
    return ways


def dictionary(ways):
    """As lines of a pronouncing dictionary."""
    return ''.join(word + (f'({i})' if i > 1 else '') + f' {way}\n'
                   for word in sorted(ways) for i, way in enumerate(ways[word], 1))


def network_words():
    """The words that have phones of their own."""
    return pronunciations(_SPOKEN)
