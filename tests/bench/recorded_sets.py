"""Recorded sets with a grammar of their own, each clip one utterance."""

import os

import corpus
import scores
import voices

# Of the studio prompts, the words that calls have.
PROMPT_WORDS = ("zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen "
                "fifteen sixteen seventeen eighteen nineteen twenty thirty forty fifty sixty seventy "
                "eighty ninety hundred thousand oh dollars first second next no repeat").split()
SPOKEN = os.path.join(corpus.TOP, "tests", "ears")


def numbers(clips):
    return [clip for clip in clips if "class=numbers" in clip.notes]


def measure_set(name, clips, grammar, options, stock):
    """Those that the grammar can say; the others must not be taken."""
    if not clips:
        return
    can_say = corpus.sayable(grammar)
    inside = [clip for clip in clips if can_say(clip.words)]
    outside = [clip for clip in clips if not can_say(clip.words)]
    cost, score = corpus.Cost(), scores.Score(name)
    heard = corpus.hear([clip.path for clip in clips], "--whole", "--grammar", grammar, cost=cost)
    for clip in inside:
        found = heard[clip.path][0]
        right = found["text"] == clip.words
        outcome = found["verdict"] if found["verdict"] != "taken" else (
            "taken right" if right else "taken wrong")
        score.add(right, outcome, clip.words, found["text"])
        if options.wrong and not right:
            print(f"      {outcome} | {clip.speaker} | {clip.words} | {found['text']}")
    sounds = {clip.path: voices.samples(clip.path) for clip in clips}
    if stock:
        texts = stock.hear({clip.path: sounds[clip.path] for clip in clips}, grammar)
        for clip in inside:
            score.add_stock(texts[clip.path] == clip.words, texts[clip.path])
    if inside:
        print(score.line(), flush=True)
    if outside:
        taken = sum(heard[clip.path][0]["verdict"] == "taken" for clip in outside)
        text = (f"    words that the grammar cannot say, taken: "
                f"{scores.share_with_interval(taken, len(outside))} of {len(outside)}")
        if stock:
            stock_taken = sum(texts[clip.path] != "" for clip in outside)
            text += f"  | stock: {scores.share(stock_taken, len(outside))}"
        print(text)
    seconds = sum(len(sound) for sound in sounds.values()) / voices.RATE_HZ
    print(f"    cost, start included: {cost.cpu_s / seconds:.3f} of real time")


def measure(options, stock):
    labels = numbers(corpus.load("an4"))
    measure_set("number labels", labels, corpus.grammar("structured"), options, stock)
    measure_set("  any run of groups", labels, corpus.grammar("labels"), options, stock)
    for name in ["speech-commands", "fsdd"]:
        measure_set(name, corpus.load(name), corpus.grammar("words"), options, stock)
    with corpus.write_grammar(PROMPT_WORDS) as prompts:
        measure_set("asterisk-prompts", corpus.load("asterisk-prompts"), prompts.name, options, stock)
    others = corpus.load("sphinx-test")
    for grammar, speakers in [("cards", ["sphinx-cards"]), ("moves", ["sphinx-a"]),
                              ("numbers", ["sphinx-b"]), ("digits", ["dhd"])]:
        measure_set("sphinx-test, " + grammar, [c for c in others if c.speaker in speakers],
                    os.path.join(SPOKEN, grammar + ".gram"), options, stock)
