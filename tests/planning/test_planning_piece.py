"""The sums of a whole piece as a maker asks for them: swatches to work, yarn weighed, time by their own log."""

import json
from pathlib import Path

import pytest

from tracker.cli import main
from tracker.journal import open_journal, piece_file, pieces_folder
from tracker.journal.entries import Entry
from tracker.load import load
from tracker.planning import hooks, yarn
from tracker.planning.time import GUESS_S
from tracker.program.places import Program, Stride
from tracker.run import open_desk
from tracker.samples import samples
from tracker.session.understand import understood
from tracker.sums.pace import own_log
from tracker.trade.stitches import STITCHES

FILES = samples()


@pytest.fixture(autouse=True)
def _home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """No piece in hand."""
    monkeypatch.setenv("ROWTELLER_HOME", str(tmp_path / "home"))


def plan(capsys: pytest.CaptureFixture[str], *words: str) -> dict[str, object]:
    """One plan, for programs."""
    assert main(["plan", *words, "--json"]) == 0
    answer: dict[str, object] = json.loads(capsys.readouterr().out)
    return answer


@pytest.mark.parametrize(
    "words, unit, least",
    [
        (["--of", "sc", "--stitches", "14", "--rows", "16"], "sc", 21),
        (["--of", "hdc"], "hdc", 21),
        (["--of", "dc", "--stitches", "13", "--rows", "7"], "dc", 20),
        (["--of", "tr"], "tr", 21),
        (["harbour-windows"], "ch-1 sp", 24),
        (["tea-tray-cloth"], "ch-2 sp", 18),
        (["hearth-mat"], "dc", 20),
    ],
)
def test_a_swatch_is_a_pattern_half_as_large_again(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], words: list[str], unit: str, least: int
) -> None:
    """Read back by check: nothing wrong, wide enough to be measured inside its edges; filet in its own mesh."""
    out = tmp_path / "swatch.txt"
    named = [str(FILES[word]) if word in FILES else word for word in words]
    assert main(["plan", "swatch", *named, "-o", str(out)]) == 0
    loaded = load("swatch", out.read_text(encoding="utf-8"))
    assert loaded.problems == ()
    made = [placed.worked.makes[unit] for _, placed in loaded.fabric.rows()]
    assert set(made) == {made[0]}
    assert made[0] >= least
    program = Program(loaded.source, loaded.pattern, loaded.fabric)
    assert any(
        "count over" in getattr(aside, "text", "") for aside in program.asides(0, loaded.fabric.length + 1)
    )


def test_parts_made_several_times_take_yarn_several_times() -> None:
    """Four feet are four feet: worked out part by part."""
    loaded = load("toy", FILES["bramble-hedgehog"].read_text(encoding="utf-8"))
    once = yarn.use_of(loaded.fabric)
    whole = yarn.use_of(loaded.fabric, None, dict(loaded.pattern.parts))
    part = {"Body": 0.0, "Face": 0.0, "Ear": 0.0, "Foot": 0.0}
    for _, placed in loaded.fabric.rows():
        part[placed.part or ""] += yarn.of_row(placed.worked)
    assert once.whole == pytest.approx(sum(part.values()))
    assert whole.whole == pytest.approx(part["Body"] + part["Face"] + 2 * part["Ear"] + 4 * part["Foot"])
    assert whole.by_kind["sc"] == sum(
        placed.worked.makes.get("sc", 0) * {"Ear": 2, "Foot": 4}.get(placed.part or "", 1)
        for _, placed in loaded.fabric.rows()
    )


def test_finished_copies_that_were_weighed_make_the_range_narrower(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Three squares of 24 g each: twelve are 288 g, and tails on top; 1.5 m to the gram by the ball's label."""
    square = str(FILES["crossroads-square"])
    weighed = plan(capsys, square, "--finished", "3,72g", "--ball", "150,100")["yarn"]
    assert isinstance(weighed, list)
    (need,) = weighed
    tails = 34 * yarn.TAIL_CM / 100
    assert need["metres"] == pytest.approx(12 * 24 * 1.5 + tails, rel=0.03)
    assert need["grams"] == pytest.approx(288, rel=0.03)
    rough = plan(capsys, square)["yarn"]
    assert isinstance(rough, list)
    assert need["most_m"] - need["least_m"] < rough[0]["most_m"] - rough[0]["least_m"]
    assert rough[0]["rough"] is True


def test_rows_of_the_piece_itself_may_be_the_swatch(capsys: pytest.CaptureFixture[str]) -> None:
    """Ten rows that took 8 m: what the whole takes is in proportion to its stitches."""
    cloth = str(FILES["pebble-cloth"])
    answer = plan(capsys, cloth, "--swatch", "1-10,8m")
    loaded = load("cloth", FILES["pebble-cloth"].read_text(encoding="utf-8"))
    use = yarn.use_of(loaded.fabric)
    ten = sum(sc for index, sc in use.by_row if index <= 10)
    need = answer["yarn"]
    assert isinstance(need, list)
    assert need[0]["metres"] == pytest.approx(8 * use.whole / ten + 0.3, abs=0.1)


def test_enough_for_this_row_is_answered_with_its_tail(capsys: pytest.CaptureFixture[str]) -> None:
    """In metres or by weight; without a swatch it is said to be rough."""
    cloth = str(FILES["pebble-cloth"])
    assert main(["plan", cloth, "--left", "12m", "--row", "7"]) == 0
    out = capsys.readouterr().out
    assert "Row 7: Enough for this row" in out
    assert main(["plan", cloth, "--left", "0.2g", "--row", "7", "--ball", "100,50"]) == 0
    assert "Row 7: Not enough for this row" in capsys.readouterr().out


@pytest.mark.parametrize(
    "words, says",
    [
        (["--left", "5m"], "takes both"),
        (["--left", "5g", "--row", "2"], "--ball metres,grams"),
        (["--left", "much", "--row", "2"], "no amount of yarn"),
        (["--left", "5m", "--row", "99"], "There is no row 99"),
        (["--finished", "some,3g"], "--finished takes"),
        (["--swatch", "80-90,3m"], "has no rows 80-90"),
        (["--swatch", "few,3m"], "no number of stitches"),
    ],
)
def test_each_slip_is_one_sentence(words: list[str], says: str, capsys: pytest.CaptureFixture[str]) -> None:
    """What is so and what to do."""
    assert main(["plan", str(FILES["pebble-cloth"]), *words]) == 2
    out, err = capsys.readouterr()
    assert says in err
    assert err.count("\n") == 1
    assert out == ""


def test_the_hook_is_told_beside_the_standards_table() -> None:
    """Medium (4): 11 to 14 single crochet to 4 in, I-9 to K-10½ (5.5 to 6.5 mm), as *Crochet World*, October 2018,
    p. 64, reproduces the Standard Yarn Weight System."""
    medium = hooks.weight_named("worsted cotton")
    assert hooks.beside(medium, 5.0).startswith(
        "5 mm hook, Medium (4) yarn: the standard gives 5.5 to 6.5 mm and 11 to 14"
    )
    assert hooks.doubt(medium, 5.0) == ""
    assert hooks.beside(None, 5.0) == hooks.beside(medium, None) == ""
    toy = "DK cotton in brown; 3.5 mm hook; stuffing; black embroidery thread"
    assert hooks.weight_named(toy) == hooks.WEIGHTS[3]
    assert hooks.of_materials(("A lap rug.", "Materials: worsted wool; 5.5 mm hook.")) == (
        "worsted wool; 5.5 mm hook.",
    )


def test_time_comes_from_the_makers_own_rows(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Five rows of 27 stitches at 2 s each, one laid aside over night: that one is passed over, the rest believed."""
    text = FILES["pebble-cloth"].read_text(encoding="utf-8")
    loaded = load("cloth", text)
    program = Program(loaded.source, loaded.pattern, loaded.fabric)
    journal, _ = open_journal(tmp_path / "home" / "pieces" / "cloth.journal", 0)
    journal.keep_text(text, "cloth.txt", 0)
    at, place, took = 1_000_000, program.start, []
    for number in range(1, 500):
        place = program.next(place, Stride.ROW)
        if place[2] > 7:
            break
        journal.append(Entry(number, at, "next", {}, place))
        sc = yarn.of_row(loaded.fabric.row(place[2]).worked)
        pause = 40_000_000 if place[2] == 4 else 0
        took.append((place[2], sc * 2.0))
        at += round(sc * 2000) + pause
    journal.close()
    log = own_log()
    assert [round(seconds, 1) for seconds, _ in log] == [
        round(sec, 1) for row, sec in took if row in (1, 2, 3, 5, 6)
    ]
    assert all(seconds / sc == pytest.approx(2.0, rel=0.01) for seconds, sc in log)
    answer = plan(capsys, str(FILES["frost-ring"]))
    assert answer["guess"] is False
    assert answer["seconds"] == pytest.approx(2.0 * answer["single_crochets"], rel=0.02)
    told = answer["told"]
    assert isinstance(told, list)
    assert any("by your last 5 rows" in line for line in told)


def test_without_a_log_time_is_said_to_be_a_guess(capsys: pytest.CaptureFixture[str]) -> None:
    """The middling maker's pace, from memory."""
    answer = plan(capsys, str(FILES["frost-ring"]))
    assert answer["guess"] is True
    assert answer["seconds"] == pytest.approx(GUESS_S[1] * answer["single_crochets"], rel=0.02)


def test_a_damaged_journal_costs_nothing_but_itself(tmp_path: Path) -> None:
    """It is passed over."""
    folder = tmp_path / "home" / "pieces"
    folder.mkdir(parents=True)
    (folder / "x.journal").write_bytes(b"no journal at all")
    assert own_log() == ()


# The Standard Yarn Weight System as *Crochet World*, October 2018, p. 64, prints it: single crochet to 4 in, and the
# hook in millimetres. Lace is left out: its printings count other stitches and contradict each other in hooks.
PRINTED = {
    1: ("Super Fine", (21, 32), (2.25, 3.5)),
    2: ("Fine", (16, 20), (3.5, 4.5)),
    3: ("Light", (12, 17), (4.5, 5.5)),
    4: ("Medium", (11, 14), (5.5, 6.5)),
    5: ("Bulky", (8, 11), (6.5, 9.0)),
    6: ("Super Bulky", (6, 9), (9.0, 16.0)),
}


@pytest.mark.parametrize("number", PRINTED)
def test_the_table_of_weights_holds_all_that_the_standard_prints(number: int) -> None:
    """Never narrower, so that a warning comes only where every printing agrees."""
    name, gauge, hook = PRINTED[number]
    row = hooks.WEIGHTS[number]
    assert (row.number, row.name) == (number, name)
    assert row.sc_in_4in is not None
    assert row.hook_mm is not None
    assert row.sc_in_4in[0] <= gauge[0]
    assert row.sc_in_4in[1] >= gauge[1]
    assert row.hook_mm[0] <= hook[0]
    assert row.hook_mm[1] >= hook[1]
    for size in hook:
        assert hooks.doubt(row, size) == ""


def test_lace_is_never_warned_about() -> None:
    """Of thread and steel hooks the printings say too different things."""
    assert hooks.WEIGHTS[0].hook_mm is None
    assert all(hooks.doubt(hooks.WEIGHTS[0], size) == "" for size in (0.6, 1.5, 2.25, 4.0))


def test_hooks_are_as_long_as_makers_sheets_say() -> None:
    """US letters by millimetres, up to where the sheets stop agreeing (lindleygeneralstore.ca's conversion sheet and
    two yarn shops' PDFs, as a tech editor compared them)."""
    assert hooks.HOOKS == {
        "B-1": 2.25, "C-2": 2.75, "D-3": 3.25, "E-4": 3.5, "F-5": 3.75, "G-6": 4.0, "7": 4.5, "H-8": 5.0, "I-9": 5.5,
        "J-10": 6.0, "K-10½": 6.5, "L-11": 8.0, "M/N-13": 9.0, "N/P-15": 10.0,
    }  # fmt: skip


def test_colours_begun_are_ends_to_weave_in(capsys: pytest.CaptureFixture[str]) -> None:
    """The ripple is worked in A and B, which makes four ends a copy, though only its words change the colour."""
    told = plan(capsys, str(FILES["low-tide-ripple"]), "--copies", "2")["told"]
    assert isinstance(told, list)
    assert any("8 ends to weave in" in line for line in told)


def test_plan_alone_says_what_it_can(capsys: pytest.CaptureFixture[str]) -> None:
    """One sentence, not a page of options."""
    assert main(["plan"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("Say what to plan: plan FILE")
    assert err.count("\n") == 1


def _weighed(tmp_path: Path, pattern: str, *lines: str) -> Path:
    """A piece of a pattern worked by these lines, in a folder of its own."""
    file = tmp_path / f"{pattern}.txt"
    file.write_text(FILES[pattern].read_text(encoding="utf-8"), encoding="utf-8")
    opened = open_desk(
        piece_file(pieces_folder(), str(file)), file.name, str(file), file.read_text(), None, 0
    )
    for nth, line in enumerate(lines, 1):
        deed = understood(line, opened.desk.session)
        assert deed is not None, line
        opened.desk.do(deed, nth)
    opened.desk.close()
    return file


def test_what_was_weighed_in_work_goes_into_the_plan(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Ten rows took 12.5 g: the whole takes that in proportion to its stitches, in metres once the label is known."""
    file = _weighed(tmp_path, "pebble-cloth", "row 2", "yes", "ball 40 g", "row 12", "yes", "ball 27.5 g")
    answer = plan(capsys, str(file))
    use = yarn.use_of(load("cloth", file.read_text()).fabric)
    ten = sum(sc for index, sc in use.by_row if 2 <= index <= 11)
    assert isinstance(answer["yarn"], list)
    assert answer["weighed"] == {"grams": 12.5}
    assert answer["yarn"][0]["grams"] == pytest.approx(12.5 * use.whole / ten)
    labelled = plan(capsys, str(file), "--ball", "85,50")["yarn"]
    assert isinstance(labelled, list)
    assert labelled[0]["rough"] is False
    assert labelled[0]["metres"] == pytest.approx(12.5 * use.whole / ten * 85 / 50 + 0.3, abs=0.1)
    assert plan(capsys, str(file), "--swatch", "1-10,8m")["weighed"] is None
    assert plan(capsys, "--piece", "pebble-cloth")["yarn"] == answer["yarn"]
    assert main(["plan", str(file)]) == 0
    assert (
        "by what you weighed in the piece 'pebble-cloth': the ball, 12 g in all." in capsys.readouterr().out
    )


def test_the_plan_gets_better_as_finished_pieces_are_weighed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Each square weighed makes the range no wider, and a text that was edited since is still the same piece."""
    one = _weighed(tmp_path, "crossroads-square", "row by row", *["next"] * 7, "this one weighs 11 g")

    def spread(file: Path) -> float:
        need = plan(capsys, str(file), "--ball", "100,50")["yarn"]
        assert isinstance(need, list)
        return float((need[0]["most_m"] - need[0]["least_m"]) / need[0]["metres"])

    first = spread(one)
    _weighed(tmp_path, "crossroads-square", *["this one weighs 11 g"] * 2)
    assert spread(one) < first
    one.write_text(one.read_text() + "\nEnd.\n")
    assert spread(one) < first
    assert main(["plan", str(one), "--piece", "crossroads-square"]) == 2
    assert "not both" in capsys.readouterr().err


def test_rounds_are_called_rounds_and_a_uk_pattern_has_uk_words(capsys: pytest.CaptureFixture[str]) -> None:
    """A square has rounds; a coaster in UK terms has double crochet where the standard's table has single."""
    main(["plan", str(FILES["crossroads-square"])])
    assert capsys.readouterr().out.startswith("CROSSROADS SQUARE: 4 rounds.")
    main(["plan", str(FILES["hearth-mat"])])
    assert capsys.readouterr().out.startswith("HEARTH MAT: 15 rows and 1 round.")
    main(["plan", str(FILES["spindrift-coasters"])])
    assert "11 to 14 double crochet to 4 in" in capsys.readouterr().out


STATED = [
    # What each pattern prints; metres, by colour.
    ("bramble-hedgehog", None, {"A": 25, "B": 15}),
    ("brick-lane-mosaic", None, {"A": 50, "B": 50}),
    ("crossroads-square", None, {"": 12 * 18 + 15}),
    ("dusk-lane-shawl", None, {"": 90}),
    ("frost-ring", None, {"": 25}),
    ("hearth-mat", None, {"": 50}),
    ("kettle-square", None, {"A": 12, "B": 12}),
    ("orchard-shells", None, {"": 200}),
    ("pebble-cloth", None, {"": 60 * yarn.YARD}),
    ("quarry-rib-cowl", None, {"": 160}),
    ("shelf-edge", None, {"": 10}),
    ("stove-lid-cap", "Child", {"": 80}),
    ("stove-lid-cap", "Adult Small", {"": 95}),
    ("stove-lid-cap", "Adult Large", {"": 110}),
    ("tea-tray-cloth", None, {"": 20}),
]


@pytest.mark.parametrize("name, size, stated", STATED)
def test_no_pattern_of_ours_asks_for_too_little_yarn_or_for_twice_too_much(
    name: str, size: str | None, stated: dict[str, float], capsys: pytest.CaptureFixture[str]
) -> None:
    """What is printed is what the stitches take by typical lengths, with something over; no less than the least."""
    needs = plan(capsys, str(FILES[name]), *(["--size", size] if size else []))["yarn"]
    assert isinstance(needs, list)
    assert {need["colour"] or "" for need in needs} == set(stated)
    for need in needs:
        assert need["metres"] <= stated[need["colour"] or ""] <= 1.7 * need["most_m"], need


def test_the_yarn_for_joining_is_told_beside_that_of_the_squares(capsys: pytest.CaptureFixture[str]) -> None:
    """Seventeen edges of 15 and two corners, a slip stitch each: 289 slip stitches in the table's single crochets."""
    main(["plan", str(FILES["crossroads-square"])])
    metres = 17 * 17 * STITCHES["slst"].yarn * yarn.ROUGH_CM[4] / 100
    assert f"Joining takes about {metres:.0f} m more" in capsys.readouterr().out
    main(["plan", str(FILES["kettle-square"])])
    assert "Joining" not in capsys.readouterr().out
