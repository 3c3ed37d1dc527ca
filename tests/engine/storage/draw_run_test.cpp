#include <algorithm>
#include <fstream>
#include <sstream>

#include "engine/base/whole_file.hpp"
#include "engine/storage/draw_run_fixture.hpp"

namespace dullcast::storage {
namespace {

TEST_F(DrawRun, APictureIsASmallPngAndTheSameEachTime) {
  const Answer answer = draw("run.h5");
  EXPECT_EQ(answer.status, 0) << answer.said;
  EXPECT_EQ(answer.said, "drawn: run.png\n");
  const std::vector<std::byte> picture = base::read_whole_file(folder / "run.png");
  const auto [width, height] = png_size(picture);
  EXPECT_GT(width, 1000U);
  EXPECT_GT(height, 600U);
  EXPECT_LT(picture.size(), 150'000U);
  EXPECT_EQ(draw("run.h5 -o again.png").status, 0);
  EXPECT_TRUE(picture == base::read_whole_file(folder / "again.png"));
  EXPECT_EQ(draw("run.h5 -o other.png --hole 1").status, 0);
  EXPECT_FALSE(picture == base::read_whole_file(folder / "other.png"));
}

// A mixed bit looks like one: what was lost, bare or chipped at the start is marked at its cutter.
TEST_F(DrawRun, WhatWasBrokenAtTheStartIsSeen) {
  scenario::Scenario bit = made_up::scenario(18);
  std::vector<std::vector<std::byte>> pictures;
  const auto keep_picture = [&] {
    write_result(folder / "bit.h5", bit, made_up::plain_outcome(18, 250));
    const Answer answer = draw("bit.h5 -o bit.png --replace");
    EXPECT_EQ(answer.status, 0) << answer.said;
    pictures.push_back(base::read_whole_file(folder / "bit.png"));
  };
  bit.bit.starting_lost.setZero();
  bit.bit.starting_table_gone.setZero();
  bit.bit.starting_chipped.setZero();
  keep_picture();
  for (Eigen::ArrayXi* marks :
       {&bit.bit.starting_chipped, &bit.bit.starting_table_gone, &bit.bit.starting_lost}) {
    (*marks)(9) = 1;
    keep_picture();
  }
  for (std::size_t k = 1; k < pictures.size(); ++k) EXPECT_FALSE(pictures[k] == pictures[k - 1]) << k;
}

TEST_F(DrawRun, TroubleIsOneSentenceAndNoPicture) {
  std::ofstream(folder / "text.h5") << "not a result";
  const auto said = [&](const std::string& arguments) {
    const Answer answer = draw(arguments);
    EXPECT_NE(answer.status, 0);
    return answer.said;
  };
  EXPECT_EQ(said("none.h5"), "draw-run: none.h5: there is no such file\n");
  EXPECT_EQ(said("."), "draw-run: .: this is a folder; give the .h5 file of one run\n");
  EXPECT_EQ(said("text.h5"), "draw-run: text.h5: this is not a dullcast run: it is not an HDF5 file\n");
  EXPECT_EQ(said("run.h5 --hole 9"), "draw-run: run.h5: there is no hole 9; the run drilled holes 1 to 3\n");
  EXPECT_EQ(said("run.h5 -o no/such.png"), "draw-run: no/such.png: there is no folder no\n");
  EXPECT_EQ(folder.names(), (std::vector<std::string>{"run.h5", "text.h5"}));
}

/// Rows every 10 s. Hole 1 holds two upsets, the pump lost from 300 s to 400 s and less weight from 700 s on,
/// which its end at 990 s cuts off; hole 2 holds one. The rows on both sides of a change bear the same time,
/// as in a run.
simulation::RunOutcome upset_outcome() {
  simulation::RunOutcome outcome = made_up::plain_outcome(18, 250);
  const auto change_at = [&](double time, auto change) {
    auto& rows = outcome.history.rows;
    auto row = std::find_if(rows.begin(), rows.end(),
                            [&](const simulation::HistoryRow& r) { return r.time >= time; });
    row = rows.insert(row, *row) + 1;
    for (const int hole = row->hole; row != rows.end() && row->hole == hole; ++row) change(*row);
  };
  for (simulation::HistoryRow& row : outcome.history.rows) row.film.setZero();
  change_at(300.0, [](simulation::HistoryRow& row) {
    row.flow = row.flow_past_bit = 0.0;
    row.flat_temperature(4) = 900.0;
    row.table_temperature(4) = 773.15;
    row.film(4) = 1.0;
  });
  change_at(400.0, [](simulation::HistoryRow& row) {
    row.flow = row.flow_past_bit = 0.004;
    row.flat_temperature(4) = 500.0;
    row.film(4) = 0.0;
  });
  change_at(700.0, [](simulation::HistoryRow& row) { row.weight = 20000.0; });
  change_at(1500.0, [](simulation::HistoryRow& row) { row.rotary_speed = 0.0; });
  change_at(1600.0, [](simulation::HistoryRow& row) { row.rotary_speed = 1.5; });
  outcome.events = {
      {simulation::EventKind::upset_begins, 300.0, 0, 15.0, 15.0, -1, "Upset 1 begins."},
      {simulation::EventKind::slots_pack, 330.0, 0, 16.5, 16.5, -1, "Cuttings pack the junk slots."},
      {simulation::EventKind::chip, 350.0, 0, 17.5, 17.5, 3, "The edge chips, 500 micrometres deep."},
      {simulation::EventKind::cutter_lost, 360.0, 0, 18.0, 18.0, 7, "The cutter leaves its pocket."},
      {simulation::EventKind::cutter_lost, 361.0, 0, 18.0, 18.0, 5, "The cutter leaves its pocket."},
      {simulation::EventKind::upset_ends, 400.0, 0, 20.0, 20.0, -1, "Upset 1 ends."},
      {simulation::EventKind::quench, 400.0, 0, 20.0, 20.0, 4, "Cold flow meets diamond at 500 C."},
      {simulation::EventKind::slots_clear, 401.0, 0, 20.0, 20.0, -1, "The junk slots are flushed clear."},
      {simulation::EventKind::upset_begins, 700.0, 0, 35.0, 35.0, -1, "Upset 2 begins."},
      {simulation::EventKind::upset_begins, 1500.0, 1, 75.0, 75.0, -1, "Upset 1 begins."},
      {simulation::EventKind::upset_ends, 1600.0, 1, 80.0, 80.0, -1, "Upset 1 ends."}};
  return outcome;
}

TEST_F(DrawRun, AnUpsetIsDrawnOverTime) {
  write_result(folder / "upset.h5", made_up::scenario(18), upset_outcome());
  const Answer answer = draw("upset.h5 --upset");
  EXPECT_EQ(answer.status, 0) << answer.said;
  EXPECT_EQ(answer.said, "drawn: upset_upset_1.png\n");
  const std::vector<std::byte> first = base::read_whole_file(folder / "upset_upset_1.png");
  const auto [width, height] = png_size(first);
  EXPECT_GE(width, 1200U);
  EXPECT_GT(height, 800U);
  EXPECT_LT(first.size(), 150'000U);
  EXPECT_EQ(draw("upset.h5 --upset 1 -o again.png").status, 0);
  EXPECT_TRUE(first == base::read_whole_file(folder / "again.png"));
  EXPECT_EQ(draw("upset.h5 --upset 2").status, 0);
  EXPECT_FALSE(first == base::read_whole_file(folder / "upset_upset_2.png"));
  // The third of the run is the first of hole 2.
  EXPECT_EQ(draw("upset.h5 --upset 3").said, "drawn: upset_upset_3.png\n");
  EXPECT_EQ(draw("upset.h5 --upset --hole 2 -o second_hole.png").said, "drawn: second_hole.png\n");
}

TEST_F(DrawRun, AnUpsetThatIsNotThereIsOneSentence) {
  write_result(folder / "upset.h5", made_up::scenario(18), upset_outcome());
  EXPECT_EQ(draw("run.h5 --upset").said,
            "draw-run: run.h5: the run has no upset to draw; give the scenario one under upsets:\n");
  EXPECT_EQ(draw("upset.h5 --upset 4").said,
            "draw-run: upset.h5: there is no upset 4; the run has 3 upsets\n");
  EXPECT_EQ(draw("upset.h5 --upset 0").said,
            "draw-run: upset.h5: there is no upset 0; the run has 3 upsets\n");
  EXPECT_EQ(draw("upset.h5 --upset 2 --hole 2").said,
            "draw-run: upset.h5: there is no upset 2; hole 2 has 1 upset\n");
  EXPECT_EQ(draw("upset.h5 --upset --hole 3").said,
            "draw-run: upset.h5: hole 3 has no upset to draw; give the scenario one under upsets:\n");
  EXPECT_EQ(draw("upset.h5 --upset --hole 9").said,
            "draw-run: upset.h5: there is no hole 9; the run drilled holes 1 to 3\n");
  const Answer old = draw("'" DULLCAST_SOURCE_DIR "/tests/engine/storage/format_1_0.h5' --upset -o old.png");
  EXPECT_NE(old.said.find("the run has no upset to draw"), std::string::npos) << old.said;
  EXPECT_EQ(folder.names(), (std::vector<std::string>{"run.h5", "upset.h5"}));
}

TEST_F(DrawRun, AnUpsetsLabelsSayWhatTheRowsHoldAndKeepClearOfOneAnother) {
  write_result(folder / "upset.h5", made_up::scenario(18), upset_outcome());
  std::ofstream(folder / "look.py") << R"(
import random, sys
sys.dont_write_bytecode = True
sys.path.insert(0, ")" DULLCAST_SOURCE_DIR R"(/tools")
import netCDF4
from drawing.upset_labels import labels_of, place_labels
from drawing.upset_span import Span, find_upset

file = netCDF4.Dataset("upset.h5")
file.set_auto_mask(False)
for number in (1, 2, 3):
    span = Span(file, "upset.h5", *find_upset(file, "upset.h5", number, None))
    print(f"{span.low:g} {span.high:g} {span.length:g} {span.finished} cutter {span.cutter + 1}")
    for label in labels_of(span):
        print(f"{label.time:g} {label.words(span)}")

chance = random.Random(5)
no_room = 0
for _ in range(2000):
    poles = sorted(chance.choice((chance.uniform(0.07, 0.92), 0.9, 0.92)) for _ in range(chance.randint(1, 10)))
    boxes = [(pole, chance.uniform(0.05, 0.3)) for pole in poles]
    placed = place_labels(boxes, 0.005, 0.995)
    if placed is None:
        no_room += 1
        continue
    spans = [(row, pole, *((pole, pole + width) if side > 0 else (pole - width, pole)))
             for (pole, width), (row, side) in zip(boxes, placed)]
    for k, one in enumerate(spans):
        assert one[2] >= 0.005 and one[3] <= 0.995, (boxes, placed)
        for other in spans[:k] + spans[k + 1:]:
            assert not (one[0] == other[0] and one[2] < other[3] and one[3] > other[2]), (boxes, placed)
            assert not (one[0] > other[0] and one[2] < other[1] < one[3]), (boxes, placed)
assert no_room < 20, no_room
print("clear")
)";
  const std::string command =
      "cd '" + folder.path().string() + "' && /usr/bin/python3 look.py > said.txt 2>&1";
  const int status = std::system(command.c_str());
  std::ostringstream said;
  said << std::ifstream(folder / "said.txt").rdbuf();
  EXPECT_EQ(status, 0) << said.str();
  EXPECT_EQ(said.str(),
            "-20 300 100 True cutter 5\n"
            "0 the pump stops\n"
            "0 steam film forms\n"
            "30 cuttings pack the slots\n"
            "60 cutter lost (cutters 6, 8)\n"
            "100 the pump is back\n"
            "100 cold flow meets diamond at 500 \u00b0C (932 \u00b0F)\n"
            "100 steam film collapses\n"
            "101 slots flushed clear\n"
            "-58 290 290 False cutter 18\n"
            "0 weight falls to 4,500 lbf\n"
            "-20 300 100 True cutter 18\n"
            "0 rotation stops\n"
            "100 rotation is back\n"
            "clear\n");
}

// A title may hold anything: it is shown, not obeyed. The picture names bit and job, says when rework falls
// due and how sure that is, and warns.
TEST_F(DrawRun, APictureNamesBitJobVerdictBandAndCautionInPlainWords) {
  scenario::Scenario odd = made_up::scenario(18);
  odd.title = "well $x^2$ \n two\x1b[31m";
  odd.bit.name = "bit $5$";
  write_result(folder / "odd.h5", odd, made_up::plain_outcome(18, 250));
  std::ofstream(folder / "look.py") << R"(
import importlib.machinery, sys, types
sys.dont_write_bytecode = True
sys.path.insert(0, ")" DULLCAST_SOURCE_DIR R"(/tools")
draw_run = types.ModuleType("draw_run")
importlib.machinery.SourceFileLoader("draw_run", ")" DULLCAST_SOURCE_DIR
                                       R"(/tools/draw-run").exec_module(draw_run)
file = draw_run.open_run("odd.h5")
figure = draw_run.draw(file, 1)
words = [text.get_text() for text in figure.texts]
print(words[0])
print(words[1])
assert all(not text.get_parse_math() or "$" not in text.get_text() for text in figure.texts), words
assert any(line.startswith("Rework ") for line in words), words
assert any(line.startswith(("Band: ", "No band")) for line in words), words
assert any("do not replace looking at the bit" in line for line in words), words

from drawing.course import gaps
# A step at one depth is drawn; a change between rows far apart is not; rows close together are.
assert list(gaps([0, 0, 50, 100], [20, 80, 81, 82])) == [], "a step"
assert list(gaps([0, 50, 100], [20, 80, 81])) == [0], "a slope that nobody computed"
assert list(gaps([0, 0.1, 0.2, 50, 100], [20, 50, 80, 81, 81])) == [], "heating, row by row"
)";
  const std::string command =
      "cd '" + folder.path().string() + "' && /usr/bin/python3 look.py > said.txt 2>&1";
  const int status = std::system(command.c_str());
  std::ostringstream said;
  said << std::ifstream(folder / "said.txt").rdbuf();
  EXPECT_EQ(status, 0) << said.str();
  EXPECT_EQ(said.str(), "well $x^2$ \\n two\\x1b[31m\nbit $5$\n");
}

TEST_F(DrawRun, ARunWithoutLayersHolesOrMilestonesIsDrawn) {
  simulation::RunOutcome outcome = made_up::plain_outcome(1, 1);
  outcome.passages.clear();
  outcome.holes.clear();
  outcome.events.clear();
  outcome.rework_due.reset();
  outcome.beyond_repair.reset();
  write_result(folder / "short.h5", made_up::scenario(1), outcome);
  const Answer answer = draw("short.h5");
  EXPECT_EQ(answer.status, 0) << answer.said;
  EXPECT_EQ(answer.said, "drawn: short.png\n");
}

}  // namespace
}  // namespace dullcast::storage
