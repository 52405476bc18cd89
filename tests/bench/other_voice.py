"""Somebody else's calls: another voice, off the microphone, while the wearer is silent.

Each recording has the wearer say some calls, and then another voice some, a metre or two away:
softer by 15 dB and more, low-passed, in a room that answers. The calls of both are clips' worth of
sense; those of the other must not be taken.
"""

import json
import os
import random
import tempfile
from concurrent.futures import ThreadPoolExecutor

import numpy

import corpus
import room
import scores
import synthesise
import voices

SEED = 20261102
WEARER_CALLS = 2
OTHER_CALLS = 4
SOFTER_DB = 15, 24
DECAY_S = 0.35, 0.7  # to 60 dB below
DIRECT_DB = -4, 4  # against the room's answer
CORNER_HZ = 2500, 4000
GAP_S = 1.3


def say(choose, who, text, loud_rms, generator, voice):
    with tempfile.TemporaryDirectory() as scratch:
        sound, speech = voices.speak(voice, choose.choice(voice.rates), text, scratch)
    if who == "other":
        sound = room.low_passed(sound, choose.uniform(*CORNER_HZ))
        sound = room.reverberated(sound, choose.uniform(*DECAY_S), choose.uniform(*DIRECT_DB),
                                  generator)
    return sound * loud_rms / voices.speech_level(sound), speech


def make(path, number, lines, noises):
    """One recording, and what is said in it when."""
    choose = random.Random(f"{SEED} {number}")
    generator = numpy.random.default_rng(choose.randrange(1 << 32))
    wearer, other = choose.sample(voices.VOICES["judge"], 2)
    softer_db = choose.uniform(*SOFTER_DB)
    wearer_rms = 10 ** (choose.uniform(-24, -18) / 20) * 32768
    sound, calls = [numpy.zeros(int(0.7 * voices.RATE_HZ))], []
    for i, text in enumerate(lines):
        who = "wearer" if i < WEARER_CALLS else "other"
        rms = wearer_rms if who == "wearer" else wearer_rms * 10 ** (-softer_db / 20)
        spoken, speech = say(choose, who, text, rms, generator, wearer if who == "wearer" else other)
        at = sum(len(piece) for piece in sound)
        calls.append({"who": who, "words": text.replace(",", ""),
                      "from_ms": at * 1000 // voices.RATE_HZ,
                      "to_ms": int(at + speech) * 1000 // voices.RATE_HZ})
        sound += [spoken, numpy.zeros(int(GAP_S * voices.RATE_HZ))]
    _, noise = choose.choice(noises) if noises else (None, None)
    snr_db = choose.choice([None, 25])
    start = choose.randrange(len(noise)) if noises else 0
    voices.write(path, room.with_noise(numpy.concatenate(sound), wearer_rms, noise, start, snr_db,
                                       generator))
    return {"path": path, "wearer": str(wearer), "other": str(other),
            "softer_db": round(softer_db, 1), "calls": calls}


def make_set(count, folder):
    listing = os.path.join(folder, "recordings.jsonl")
    if os.path.exists(listing) and sum(1 for _ in open(listing)) >= count:
        return [json.loads(line) for line in open(listing)][:count]
    os.makedirs(folder, exist_ok=True)
    noises, each = room.noises("judge"), WEARER_CALLS + OTHER_CALLS
    drawn = [text for _, text in synthesise.draw_texts(random.Random(SEED), count * each, True)]
    with ThreadPoolExecutor(2) as pool:
        jobs = [pool.submit(make, os.path.join(folder, f"{i:03d}.wav"), i,
                            drawn[i * each:(i + 1) * each], noises) for i in range(count)]
        made = [job.result() for job in jobs]
    with open(listing, "w") as file:
        file.writelines(json.dumps(one) + "\n" for one in made)
    return made


def over(call, found):
    return [one for one in found if one["start_ms"] < call["to_ms"] + 400
            and one["end_ms"] > call["from_ms"] - 150]


def measure(options, stock):
    made = make_set(max(1, options.calls // 12), options.folder("other-voice"))
    heard = corpus.hear([one["path"] for one in made])
    counts = {who: dict.fromkeys(["n", "taken", "doubted", "heard"], 0) for who in ["wearer", "other"]}
    pieces, wrong = {}, []
    for one in made:
        sound = voices.samples(one["path"])
        for call in one["calls"]:
            found = over(call, heard[one["path"]])
            taken = any(c["verdict"] == "taken" for f in found for c in f["calls"])
            count = counts[call["who"]]
            count["n"] += 1
            count["taken"] += taken
            count["doubted"] += not taken and any(f["verdict"] == "doubted" for f in found)
            count["heard"] += bool(found)
            if call["who"] == "other":
                at, to = ((call[key] + more) * 16 for key, more in [("from_ms", -300), ("to_ms", 300)])
                pieces[one["path"], call["from_ms"]] = sound[at:to]
                wrong += [(one, call)] if taken else []
    for who, name in [("other", "another voice, calls"), ("wearer", "  the wearer before it")]:
        count = counts[who]
        text = (f"{name:26.26s}{count['n']:5d}  taken "
                f"{scores.share_with_interval(count['taken'], count['n'])}  doubted "
                f"{scores.share(count['doubted'], count['n'])}  heard at all "
                f"{scores.share(count['heard'], count['n'])}")
        if stock and who == "other":
            meant = corpus.meanings(list(stock.hear(pieces).values()))
            text += f"  | stock: taken {scores.share(sum(m != '[]' for m in meant), len(meant))}"
        print(text, flush=True)
    for one, call in wrong:
        print(f"      taken: {os.path.basename(one['path'])} at {call['from_ms']} ms, "
              f"{one['softer_db']} dB softer, {one['other']} after {one['wearer']} | {call['words']}")
