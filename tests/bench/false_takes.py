"""Sound that is not for us: nothing of it may be taken."""

import os

import corpus
import recorded_sets
import scores
import voices

PROSE = ("librivox-ss", "sphinx-forever", "sphinx4-green")


def minutes_of(sounds):
    return sum(len(sound) for sound in sounds) / voices.RATE_HZ / 60


def taken(found):
    return [one for one in found if one["verdict"] == "taken"
            or any(call["verdict"] == "taken" for call in one["calls"])]


class Heard:
    """What was made of some clips; the stock decoder's meanings too, where it is asked."""

    def __init__(self, clips, stock):
        self.sounds = {clip.path: voices.samples(clip.path) for clip in clips}
        self.found = corpus.hear([clip.path for clip in clips]) if clips else {}
        self.stock = None
        if stock and clips:
            words = stock.hear(self.sounds)
            self.stock = dict(zip(words, corpus.meanings(list(words.values()))))

    def line(self, name, clips):
        if not clips:
            return
        minutes = minutes_of(self.sounds[clip.path] for clip in clips)
        found = [one for clip in clips for one in self.found[clip.path]]
        wrong = taken(found)
        clips_taken = sum(bool(taken(self.found[clip.path])) for clip in clips)
        doubted = sum(one["verdict"] == "doubted" for one in found if one not in wrong)
        text = (f"{name:26.26s}{len(clips):5d} clips {minutes:5.1f} min  clips taken "
                f"{scores.share_with_interval(clips_taken, len(clips))}  taken "
                f"{len(wrong) / minutes:5.2f} a minute (< {scores.rate_bound(len(wrong), minutes):.2f})"
                f"  doubted {doubted / minutes:5.2f} a minute")
        if self.stock:
            calls = sum(self.stock[clip.path] != "[]" for clip in clips)
            text += f"  | stock: clips taken {scores.share(calls, len(clips))}"
        print(text, flush=True)

    def name_taken(self, clips):
        for clip in clips:
            for one in taken(self.found[clip.path]):
                print(f"      taken: {os.path.basename(clip.path)} | {one['text']} | said: "
                      f"{clip.words}")


def orders_said(clips):
    """Of people who speak into a headset and say what is no call, some say one: "help", "repeat"."""
    standings = corpus.ask([clip.words for clip in clips], "--standing")
    calls = [clip for clip, standing in zip(clips, standings) if standing.startswith("1")]
    return calls, [clip for clip in clips if clip not in calls]


def measure(options, stock):
    for name in ["librispeech-oog", "meeting-oog", "spoken-orders-oog", "noise", "sphinx-test"]:
        clips = [clip for clip in corpus.load(name) if name != "sphinx-test" or clip.speaker in PROSE]
        heard = Heard(clips, stock)
        heard.line(name if name != "sphinx-test" else name + ", prose", clips)
        heard.name_taken(clips)
    an4 = corpus.load("an4")
    numbers = recorded_sets.numbers(an4)
    clips = [clip for clip in an4 if clip not in numbers]
    heard = Heard(clips, stock)
    calls, others = orders_said(clips)
    heard.line("an4, no calls", others)
    for kind in ["letters", "letters+numbers", "date", "command", "command+args"]:
        heard.line("  " + kind, [c for c in others if f"class={kind};" in c.notes + ";"])
    heard.name_taken(others)
    heard.line("an4, station orders", calls)
    heard.name_taken(calls)
