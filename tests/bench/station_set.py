"""Station calls of synthetic voices: was each understood, and when.

An utterance of a clip counts where it overlaps with the speech. What the endpointer cut apart is put
together again as the session does: its calls one after another, and a piece that begins with "no"
belongs to the piece before it. Anything else that is taken is taken wrong, wherever in the clip.
"""

import json

import corpus
import scores
import synthesise
import voices

NEAR_MS = 150  # how far outside the speech an utterance may lie and still be of it
PRE_ROLL_MS = 300  # what the recogniser is given from before the first voiced frame


def plain(calls):
    """Calls by what they would write down: that one was a correction is no part of it."""
    dropped = ("verdict", "confidence", "correction")
    return [{key: value for key, value in call.items() if key not in dropped} for call in calls]


def of_speech(notes, found):
    return [one for one in found if one["start_ms"] < int(notes["to_ms"]) + NEAR_MS
            and one["end_ms"] > int(notes["from_ms"]) - NEAR_MS]


def joined(found):
    """Utterances in groups: those that begin with "no" with what they correct."""
    groups = []
    for one in found:
        if groups and one["text"].split()[:1] == ["no"] and one["verdict"] != "refused":
            groups[-1].append(one)
        else:
            groups.append([one])
    return groups


def text_of(group):
    return " ".join(one["text"] for one in group if one["text"])


class Judged:
    """A clip with what was made of it."""

    def __init__(self, clip, notes, meant, found, means):
        self.clip, self.notes, self.found = clip, notes, of_speech(notes, found)
        self.groups = joined(self.found)
        self.text = text_of(self.found)
        meant = plain(json.loads(meant))
        understood = [plain(json.loads(means[text_of(group)])) for group in self.groups]
        self.right = [call for calls in understood for call in calls] == meant
        verdicts = {one["verdict"] for one in self.found}
        taken = []
        for group, calls in zip(self.groups, understood):
            if len(group) == 1:
                taken += plain(c for c in group[0]["calls"] if c["verdict"] == "taken")
            elif {one["verdict"] for one in group} == {"taken"}:
                taken += calls
        strays = [one for one in found if one not in self.found]
        taken += plain(c for one in strays for c in one["calls"] if c["verdict"] == "taken")
        self.wrong = [call for call in taken if call not in meant]
        self.outcome = ("taken wrong" if self.wrong
                        else "taken right" if self.right and verdicts == {"taken"}
                        else "doubted" if "doubted" in verdicts
                        else "refused")

    def lines(self):
        """The lines of the table that this clip counts in, each with its place."""
        snr = self.notes["snr"]
        quiet = [(1, 0, "clean to 10 dB")] if snr != "5" else []
        return [(0, 0, "station calls, all"), *quiet,
                (2, synthesise.SNRS_DB.index(None if snr == "None" else int(snr)),
                 "  clean" if snr == "None" else f"  {snr} dB"),
                (3, 0, f"  {self.clip.speaker}"), (4, 0, f"  {self.notes['kind']}")]


def wait_ms(one):
    """From the known end of speech to the decision; less than none where it was cut before."""
    return one.found[-1]["decided_ms"] - int(one.notes["to_ms"])


def print_times(judged, standings):
    """The times of decision, by whether a word could have lengthened what was said."""
    may_go_on = {one.clip.path: standing.split()[1] == "1" for one, standing in zip(judged, standings)}
    for kind, goes_on in [("nothing lengthens it", False), ("it may go on", True)]:
        for name, ones in [("clean to 10 dB", [o for o in judged if o.notes["snr"] != "5"]),
                           ("5 dB", [o for o in judged if o.notes["snr"] == "5"])]:
            waits = [wait_ms(o) for o in ones if o.found and may_go_on[o.clip.path] == goes_on]
            if waits:
                print(f"    end of speech to decision, {kind}, {name}: p50 "
                      f"{scores.percentile(waits, .5)} ms, p95 {scores.percentile(waits, .95)} ms "
                      f"(n {len(waits)}, {sum(w < 0 for w in waits)} before the end)")
    heard = [one for one in judged if one.found]
    late = sum(one.found[0]["start_ms"] - int(one.notes["from_ms"]) > PRE_ROLL_MS for one in heard)
    run_on = [one for one in heard if one.notes["kind"] not in ("several", "corrected")]
    split = sum(len(one.found) > 1 for one in run_on)
    print(f"    first sound lost: {late} of {len(heard)}; single calls cut in two: {split} of "
          f"{len(run_on)}; clips in which nothing was heard: {len(judged) - len(heard)}")


def measure(options, stock):
    listing = synthesise.make_set("judge", options.calls, options.folder("calls"))
    clips = synthesise.read_set(listing, options.calls)
    cost = corpus.Cost()
    heard = corpus.hear([clip.path for clip, _ in clips], cost=cost)
    texts = {text_of(group) for clip, notes in clips
             for group in joined(of_speech(notes, heard[clip.path]))}
    means = dict(zip(sorted(texts), corpus.meanings(sorted(texts))))
    meant = corpus.meanings([clip.words for clip, _ in clips])
    judged = [Judged(clip, notes, meaning, heard[clip.path], means)
              for (clip, notes), meaning in zip(clips, meant)]
    table = {}
    for one in judged:
        for line in one.lines():
            table.setdefault(line, scores.Score(line[-1])).add(one.right, one.outcome,
                                                               one.clip.words, one.text)
    sound = {one.clip.path: voices.samples(one.clip.path) for one in judged}
    if stock:
        found = stock.hear(sound)
        for one, meaning, calls in zip(judged, meant, corpus.meanings(list(found.values()))):
            right = plain(json.loads(calls)) == plain(json.loads(meaning))
            for line in one.lines():
                table[line].add_stock(right, found[one.clip.path])
    for line in sorted(table):
        print(table[line].line(), flush=True)
    print_times(judged, corpus.ask([one.clip.words for one in judged], "--standing"))
    work = [one["compute_ms"] for found in heard.values() for one in found]
    sound_s = sum(len(s) for s in sound.values()) / voices.RATE_HZ
    print(f"    work after the decision: p95 {scores.percentile(work, .95):.1f} ms; cost, start "
          f"included: {cost.cpu_s / sound_s:.3f} of real time; memory {cost.memory_mb:.0f} MB")
    if options.wrong:
        for one in judged:
            if not one.right or one.outcome == "taken wrong":
                print(f"      {one.outcome} | {one.clip.speaker} | {one.notes['snr']} "
                      f"{one.notes['noise']} | {one.clip.words} | {one.text} | {one.clip.path}")
