"""Sentences drawn at random from a JSGF grammar.

The weights of the grammar say what is likely; drawn from as they stand, rare
words would hardly ever be said, so they are evened out somewhat.
"""
import re

VOID = '<VOID>'             # what cannot be said
EVENED = 0.5                # a weight counts as its power of this
TOKENS = re.compile(r'<[\w.]+>|/[0-9.]+/|[\[\]()|*+]|[^\s\[\]()|*+/<>]+')


class Grammar:
    """What a JSGF text without recursion can say."""

    def __init__(self, text):
        text = re.sub(r'/\*.*?\*/|//[^\n]*', ' ', text, flags=re.S)
        text = re.sub(r'#JSGF[^;]*;|grammar [^;]*;', ' ', text)
        self.rules = {}
        for _, name, body in re.findall(r'(public\s+)?<([\w.]+)>\s*=\s*([^;]*);', text):
            self.rules[name], rest = self._choice(TOKENS.findall(body))
            if rest:
                raise ValueError(f'<{name}> is not understood at {rest[0]}')

    def _choice(self, tokens):
        """A list of (weight, sequence), and the tokens after it."""
        ways, weight, sequence = [], 1.0, []
        while tokens and tokens[0] not in (')', ']'):
            token, tokens = tokens[0], tokens[1:]
            if token == '|':
                ways.append((weight, sequence))
                weight, sequence = 1.0, []
            elif token[0] == '/':
                weight = float(token[1:-1])
            elif token in '([':
                part, tokens = self._choice(tokens)
                if token == '[':
                    part = part + [(1.0, [])]
                sequence.append(part)
                tokens = tokens[1:]
            elif token in '*+':
                raise ValueError('a loop')
            elif token == '<NULL>':
                pass
            else:
                sequence.append(token)
        ways.append((weight, sequence))
        return ways, tokens

    def walk(self, choose, name):
        """The words of one sentence of a rule."""
        while True:
            words = self._say(choose, self.rules[name])
            if VOID not in words:
                return words

    def _say(self, choose, ways):
        weights = [weight ** EVENED for weight, _ in ways]
        sequence, words = choose.choices(ways, weights)[0][1], []
        for part in sequence:
            if isinstance(part, list):
                words += self._say(choose, part)
            elif part[0] == '<' and part != VOID:
                words += self._say(choose, self.rules[part[1:-1]])
            else:
                words.append(part)
        return words
