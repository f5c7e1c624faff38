"""What the synthetic voices are made to say: commands, numbers, and everything that is no command.

What goes out: `Line`s, each with the class it teaches. Every random choice takes the seed it is given, so
two runs say the same.
All sentences are invented; the single words come from Debian's word list (wamerican-small) where it is
installed.
"""

from __future__ import annotations

import random
from dataclasses import dataclass
from pathlib import Path

from tracker.ears.hearing.words import NAMES, SLOTTED, number_words, simple_phrases

OTHER = "other"


@dataclass(frozen=True, slots=True)
class Line:
    """One thing to say."""

    text: str
    label: str
    """The phrase for a command, "row", "count" or "number" with a number, "other" for the rest."""


def command_lines() -> list[Line]:
    return [Line(phrase, phrase) for phrase in simple_phrases()]


def named_lines(rng: random.Random, many: int) -> list[Line]:
    """Commands with a machine's name in front of them."""
    phrases = simple_phrases()
    picked = [(rng.choice(NAMES), rng.choice(phrases)) for _ in range(many)]
    return [Line(f"{name} {phrase}", phrase) for name, phrase in picked]


def number_lines(rng: random.Random, many: int) -> list[Line]:
    """Numbers alone and in their phrases: every number to 99 about equally often, a quarter of them above it."""
    lines = []
    for i in range(many):
        number = rng.randint(100, 999) if rng.random() < 0.2 else (i * 37 + rng.randint(0, 4)) % 99 + 1
        label = rng.choice(("row", "row", "count", "number", "number"))
        words = number_words(number, said_and=rng.random() < 0.5)
        if label == "number":
            lines.append(Line(words, label))
        else:
            lines.append(Line(rng.choice(SLOTTED[label]).replace("{n}", words), label))
    return lines


def teen_lines(rng: random.Random, many: int) -> list[Line]:
    """Teens and tens, alone and in their phrases."""
    lines = []
    for _ in range(many):
        words = number_words(rng.choice((*range(13, 20), *range(30, 100, 10))))
        label = rng.choice(tuple(SLOTTED))
        lines.append(Line(rng.choice(SLOTTED[label]).replace("{n}", words), label))
    return lines


CONTRASTS = """\
top, shop, stock, stopped, step, text, nest, neck, necks, bag, pack, black, back loop, pores, paws, four, force,
cause, lesson, list, glisten, know, now, snow, nose, oh no, help yourself, held, hem, yelp, less, dress, guess, yet,
a game, begin, gain, against, undone, on you, until, in do, come on, go on, hold on, hang up, hook, there, one bag,
won back, one black, weight, waiter, a minute, moving, along, belong, and turn, right, round, row, okay, done,
second, window"""
CONTRASTED = (
    "next", "back", "again", "pause", "listen", "stop", "undo", "yes", "no", "help", "one back", "wait a minute",
    "move along",
)  # fmt: skip
SELDOM = {"top", "shop", "stock", "stopped", "step"}
"""Decoys said half as often: said as often as the others they taught the head to pass over "stop" itself."""
OFTEN = {"stop": 3.0, "no": 2.0, "pause": 2.0, "help": 2.0, "yes": 2.0}
"""And how many times as often the words of one syllable that are missed most."""
ALIKE = ((9, 90), (12, 20), (13, 30), (14, 40), (15, 50), (16, 60), (17, 70), (18, 80), (19, 90))
"""Numbers that are each other's likeliest mistake."""


def contrast_lines(rng: random.Random, share: float) -> list[Line]:
    """Short commands beside the words that are taken for them, and numbers beside their likeliest mistakes; each
    with that chance."""
    near = [w.strip() for w in CONTRASTS.replace("\n", " ").split(",")]
    lines = [Line(word, OTHER) for word in near] + [Line(phrase, phrase) for phrase in CONTRASTED]
    for label, phrase in (("count", "i have {n} stitches"), ("row", "row {n}"), ("row", "round {n}")):
        for pair in ALIKE:
            lines += [Line(phrase.replace("{n}", number_words(n)), label) for n in pair]
    return [line for line in lines if rng.random() < share * _often(line)]


def _often(line: Line) -> float:
    return 0.5 if line.text in SELDOM else OFTEN.get(line.label, 1.0)


def counting_lines(rng: random.Random, many: int) -> list[Line]:
    """Counting aloud: a few numbers in a row, which is no number."""
    lines = []
    for _ in range(many):
        first, step = rng.randint(1, 40), rng.choice((1, 1, 1, 2, 3, 5))
        row = [number_words(first + step * i) for i in range(rng.randint(2, 5))]
        lines.append(Line((" " if rng.random() < 0.5 else ", ").join(row), OTHER))
    return lines


def small_number_lines(rng: random.Random, many: int) -> list[Line]:
    """Numbers to thirty in the phrases that hold one."""
    lines = []
    for _ in range(many):
        label = rng.choice(("row", "count", "count"))
        phrase = SLOTTED[label][0] if rng.random() < 0.6 else rng.choice(SLOTTED[label])
        lines.append(Line(phrase.replace("{n}", number_words(rng.randint(1, 30))), label))
    return lines


def named_number_lines(rng: random.Random, many: int) -> list[Line]:
    lines = []
    for _ in range(many):
        label = rng.choice(("row", "count"))
        phrase = rng.choice(SLOTTED[label]).replace("{n}", number_words(rng.randint(1, 99)))
        lines.append(Line(f"{rng.choice(NAMES)} {phrase}", label))
    return lines


NEAR = """\
text, nest, neck, necks, vexed, necklace, mixed, context, next to it, the next one, next week, necessary,
knit, hexed, bag, black, pack, bat, beck, bank, bake, back loop, back post, in the back, backpack, back
and forth, come back later, against, a game, begin, gain, gun, once again, a gate, paws off, four, fours,
because, porch, horse, applause, cause, positive, lesson, lizard, listed, list, glisten, listening, shop,
top, step, stock, drop, stopped, stoop, stops, stop it, bus stop, shot, under, on you, and do, onto,
redo, and two, undone, one two, you do, until, yet, yarn, dress, guess, this, yesterday, chess, jess,
now, go, low, node, note, snow, not, nose, nope, no way, don't know, held, health, kelp, yelp, hope,
helped, helpful, wherever, where is it, what am i, where are they, where is my hook, were you, where did
i put it, how many, how many people, turn left, how much, too many, what is left, how about it, road,
roll, grow, rose, run, wrong, roundabout, ground, found, go to bed, go to sleep, go there, i have, i have
no idea, i have to go, counter, account, country, row, round, count, go to row, one, onwards and upwards,
award, on what, inward, only, on board, on the way, moving, move over, along, a long time, say, say it,
again and again, say when, same again, one more, one bag, won back, one black, take that, take the bag,
take it back, talk back, hang, hang up, hanging, hand on, angle, rest, rest of it, the rest now, arrest,
to me, listen to this, yes but, yes and no, no thank you, thanks, thank you, please, help yourself, help
him, show me, show me now, how do you do, how do i, tell me, keep, keep it, keep on, carrying, carry it,
step, step by step, once, more, once or twice, wait, wait for me, wake, wake him, hold, hold it, hold the
line, that is it, that is, where are you, how many more days, speak, speak up, fast, slow, row by,
stitch, by the way, group, what can i do, read, read it, read the book, row of houses, take a look, take,
break, a break, brake, only you"""

TRADE = """\
chain, chain three, chain one skip one, double crochet, single crochet, half double crochet, treble, slip
stitch, turn, yarn over, pull up a loop, pull through, pull through two, front post, front loop only,
skip, skip one, skip two, in the next stitch, five double crochet, two together, decrease, increase,
repeat, repeat to the end, space, in the space, window, a window, four windows, open, block, solid,
shell, picot, cluster, bobble, popcorn, magic ring, ring, fasten off, weave in the ends, hook, the hook,
marker, move the marker, right side, wrong side, corner, edge, edging, square, granny square, motif,
join, join with a slip stitch, tail, gauge, tension, first, second, third, fourth, last one, the last
stitch, eight to finish, count then turn, rip back three, frog it, chain three and turn, one two three,
one two three four, five six seven eight, two four six eight ten, eleven twelve thirteen, same as row
two, another row, this row, that row, last row, first row, every row, the row below, end of the row, row
end six two, double crochet in the fourth chain, three skipped are your first, top of the chain three,
around the chain, skip the stitch it stands on, don't turn, feel under your hook, one window is missing,
check the second four, thirty six, it makes thirty, six times, into each"""

HOUSE = """\
okay, well, hmm, uh, um, oh, ah, hello, hi, hey, bye, good, great, fine, right, wrong, maybe, sure,
really, what, why, who, when, which, then, there, here, this one, that one, it is, is it, come in, come
here, dinner, tea, coffee, coffee please, milk, sugar, water, the kettle, the door, the phone,
television, radio, weather, rain, sunny, morning, evening, tomorrow, today, tonight, monday, friday,
mother, father, brother, sister, daughter, john, mary, anna, peter, cat, dog, down boy, off, on, up,
down, out, over, louder, turn it off, turn it up, turn it down, not now, later, soon, wait there, look,
look at this, see, let me see, got it, sorry, pardon, excuse me, what time is it, half past four, ten to
nine, quarter to three, one moment, just a minute, give me that, put it down, where is the cat, who is
it, i don't know, i know, of course, never mind, nothing, everything, something, anyway, computer, alexa,
play music, set a timer, small, medium, large, dark roast, light roast, double shot, single shot,
cappuccino, almond milk, a bit of sugar"""

MUTTER = """\
done, oops, whoops, okay, okay then, right then, right, come on, go on, there, there we go, there you are,
and turn, and again then, one more, another one, the next one, in the next, same again, last one, first
one, nearly there, almost, wait, hang up, hold this, oh no, no no, not again, not yet, nope, yep, yeah, yup,
mm hmm, aha, phew, bother, drat, blast, good, lovely, pretty, too tight, too loose, tighter, looser, where
was i, what was i doing, what row, which row, what number, how many was that, how many was it, i lost count,
lost it, start again, over again, start over, go back, turn back, back post, back loop, front loop, top,
top of it, tip, hop, hook, hooks, loop, loops, loose, under, under two, and under, undone, pull, pull it,
pull through, push, through, threw, two more, three more, one two, three four, five six, six seven, eight
nine, nine ten, ten more, tension, attention, nets, yarn, yarn over, over, cover, corner, counter, knot,
not, notch, stitch, stitches, switch, which, window, windows, wind, winder, row end, row done, rows, road,
roe, rope, rode, know, knows, nose, no one, snow, yes yes, less, guess, best, rest, mess, chest, pores,
course, force, paws, claws, pose, poles, lessen, isn't it, it's in, missing, this one, listing, heap, hem,
hems, hemp, held it, elbow, yellow, hello there, shell, shells, cell, fan, picot, cluster, single, double,
treble, trouble, half, halves, halfway, second, seconds, third, turn it, turning, term, skip, skip it,
skipping, chain, chains, change, chained, slip, slip it, slipped, decrease, increase, crease, repeat, we
repeat, marker, market, scissors, needle, ball, skein, mug, cup of tea, light, glasses"""

COMMON = """\
about, after, all, always, am, an, any, apple, arm, as, ask, at, away, baby, bad, ball, be, bed,
before, bell, best, better, big, bird, bit, blue, boat, book, both, bottle, bottom, bowl, box, boy,
bread, bring, brown, bus, but, butter, button, buy, by, call, can, cap, car, card, care, case,
catch, chair, check, cheese, child, city, class, clean, clear, clock, close, clothes, cloud, coat,
cold, colour, cook, cool, cost, could, cotton, cup, cut, dark, day, dear, deep, did, different,
dish, doctor, does, don't, down, draw, drink, drive, dry, each, ear, early, east, easy, eat, edge,
egg, else, end, enough, even, ever, eye, face, fair, fall, far, farm, feel, feet, few, field, fill,
find, finger, fire, first, fish, five, floor, flower, fly, follow, food, foot, for, forget, fork,
forward, free, fresh, friend, from, front, full, fun, funny, garden, gate, get, gift, girl, give,
glad, glass, goes, gold, gone, got, grass, green, grey, had, hair, hand, happy, hard, has, hat,
have, he, head, hear, heart, heavy, her, high, hill, him, hit, home, hot, hour, house, huge,
hundred, ice, idea, if, in, inch, into, iron, jacket, job, join, jump, just, key, kind, king,
kitchen, knee, knife, knitting, know it, lamp, land, large, late, laugh, lay, leaf, learn, leave,
leg, lemon, let, letter, life, lift, like, line, lip, little, live, long, lot, love, lunch, made,
make, man, many, map, mark, market, may, me, meal, mean, meat, meet, middle, might, mind, mine,
minute, miss, money, month, moon, most, mouth, much, music, must, my, name, near, need, never, new,
news, nice, night, noise, north, of, often, oil, old, open, orange, our, owl, own, page, paint, pan,
paper, park, part, party, past, path, pay, pen, pencil, people, pepper, pick, piece, pin, pink,
place, plan, plant, plate, play, pocket, point, poor, pot, present, press, price, purple, put,
queen, question, quick, quiet, quite, ready, red, rice, ride, ring, river, road, room, round it,
salad, salt, same, sand, save, say, school, sea, seat, seem, sell, send, set, shape, sharp, she,
sheep, sheet, ship, shirt, shoe, short, should, shoulder, shut, side, silver, simple, since, sing,
sit, size, skin, skirt, sky, sleep, sleeve, slow, smell, smile, so, soap, sock, soft, some, song,
sorry then, sound, soup, south, spoon, spring, stand, star, start, stay, steel, still, stone, store,
story, straight, street, string, strong, summer, sun, table, tail, talk, tall, tape, taste, teach,
ten, tenth, than, that, the, their, them, these, they, thick, thin, thing, think, thirsty, those,
thread, through, tie, time, tired, to, toe, too, took, tool, tooth, touch, towel, town, train, tree,
true, try, twist, type, uncle, use, very, view, voice, walk, wall, want, warm, was, wash, watch, we,
wear, well, went, west, wet, wheel, white, wide, wife, will, wish, with, woman, wood, wool, word,
work, world, would, write, year, yellow, young, your, zip, stuck, stack, stalk, star, stub, stuff,
staff, stomp, stamp, tap, tub, tuck, tock, chop, crop, flop, mop, prop, swap, soap, spot, spots,
sock, sack, sick, six, sicks, sixth, say when, saying, sake, sagging, second one, seven, set again,
nick, knack, neat, net, mix, mixed, fixed, mexico, waxed, taxed, sex, tech, tack, tick, duck, deck,
dock, peck, pick, puck, hack, buck, book, beak, bark, barb, bad, batch, bash, badge, begin again,
gone, men, then again, den, agent, paw, poor, pause it, pours, boss, bus, parse, pass, peas, piece,
post, both, pose, boards, nothing, noon, moan, mow, nor, gnaw, nah, now now, whoa, row, hose, hell,
elf, yelp, felt, hoop, heel, cups, yeast, yet again, yells, yes sir, guest, west, chest, mess, hiss,
us, lists, lesson one, dozen, isn't, christen, fasten, moisten, handoff, and on, under it, london,
sundown, too, untie, end to, window, winded, can do"""
"""Said alone, by people who mean nothing to the tool: common words, then words a sound or two from a command."""

SENTENCES = """I went to the market this morning and they had no blue yarn at all, only a kind of green.
When you get to the end of the row, chain three and turn your work.
The next thing you want to do is find the top of the turning chain.
Stop the car for a moment, I think we left the window open at home.
She said she would come back again on Tuesday if the weather holds.
First we make a magic ring, then six single crochet into it, and pull it tight.
How many people are coming to dinner, and what are we going to give them?
He never listens to me when I tell him to pause and think about it.
In this lesson we are going to learn how to work into the back loop only.
If you count your stitches you should have twenty four, not counting the chain.
Could you help me carry these boxes up to the second floor, please?
No, I told you yesterday, the train leaves at ten past seven.
Yes, it is a lovely pattern, and it is not nearly as hard as it looks.
You go under two loops, yarn over, pull through, and there you are.
And now the news. Prices rose again in the last month of the year.
The next train to arrive at platform four calls at all stations.
Take that bag back to the shop and ask them whether they have another one.
My grandmother used to sit by the fire and count the rows out loud.
It was a bright cold day, and the sea beyond the harbour was very still.
Skip the first stitch, double crochet in the next five, chain two, skip two.
Work in rounds without joining, and move your marker up as you go.
I have three cats, two dogs and a parrot who says hello to the postman.
Wait, where am I supposed to put this one, on the left or on the right?
A good way to begin is with a smooth yarn in a light colour and a larger hook.
There is a storm coming in from the west, with rain by the afternoon.
Put the kettle on, and bring me a cup of tea with a little milk.
We will look at the chart now: each open square is a chain two space.
After that they all went home, and nobody spoke of it again.
Do you remember the name of the film with the man who lost his hat?
The score at half time was two to one, and the visitors were pressing hard.
One, two, three, four, five, six, seven, eight, nine, ten, eleven, twelve.
Two, four, six, eight, ten, twelve, fourteen, sixteen, eighteen, twenty.
Row one, chain thirty one. Row two, double crochet across. Row three, the same.
One double crochet, two double crochet, chain one, skip one, and again.
I keep losing my place whenever the telephone rings, it drives me mad.
What on earth did you do with the scissors, they were here a minute ago.
Listen, I will call you back in an hour, I have something on the stove.
Hang on a second, let me find my glasses and I will read it to you.
It says here to repeat from the star to the end of the row, four times in all.
He walked onward through the wood until he came to a little house.
That is enough for today, we will finish the border some other time.
Window: chain one, skip one, one double crochet. Four of these.
Row four: sixteen squares, eight open. Count, then turn.
Single crochet in each: thirty-six. Don't join; stop at the marker.
Chain four: a double crochet and its window. Skip one, then one double crochet."""


def near_words() -> list[str]:
    return [w.strip() for w in NEAR.replace("\n", " ").split(",")]


def other_lines(rng: random.Random, many: int) -> list[Line]:
    """Words, talk and sentences that are no command, `many` of them, short ones most often."""
    commands = set(simple_phrases())
    house = [w.strip() for w in (TRADE + ", " + HOUSE + ", " + MUTTER).replace("\n", " ").split(",")]
    sentences = SENTENCES.splitlines()
    plain = dictionary_words(rng, 1500) or house
    common = [w.strip() for w in COMMON.replace("\n", " ").split(",")]
    pools = ((near_words(), 0.22), (house, 0.3), (common, 0.2), (plain, 0.15), (sentences, 0.13))
    lines: list[Line] = []
    while len(lines) < many:
        pool = rng.choices([p for p, _ in pools], [w for _, w in pools])[0]
        text = rng.choice(pool)
        if text.lower() not in commands and not is_number(text):
            lines.append(Line(text, OTHER))
    return lines


def is_number(text: str) -> bool:
    """Such a line belongs to the numbers, not to the rest."""
    return text in _NUMBERS


_NUMBERS = {number_words(n) for n in range(1, 100)}


def dictionary_words(rng: random.Random, many: int) -> list[str]:
    path = Path("/usr/share/dict/words")
    if not path.exists():
        return []
    words = [
        w
        for w in path.read_text(encoding="utf-8").split()
        if w.isascii() and w.isalpha() and w.islower() and 3 <= len(w) <= 9
    ]
    return rng.sample(words, min(many, len(words)))
