// `read`, `simulate`, `recover` and `columns` at their doors.

#include <doctest/doctest.h>
#include <sys/resource.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <streambuf>
#include <string>

#include "bag_option.hpp"
#include "truth.hpp"
#include "typed.hpp"
#include "verbs/invent.hpp"
#include "wrap.hpp"

using namespace strikewright;
using doctest::Approx;

namespace {

std::string text_of(const std::string& file) {
  std::ifstream stream(file, std::ios::binary);
  REQUIRE(stream);
  return {std::istreambuf_iterator<char>(stream), {}};
}

nlohmann::json read_json(const std::string& table, const std::string& options = "") {
  const Typed done = typed("read - --json " + options, table);
  CHECK(done.err == "");
  REQUIRE(done.code == 0);
  return done.json();
}

/// A file of many equal rows that is never whole in memory.
class ManyRows : public std::streambuf {
 public:
  ManyRows(std::string head, std::string row, std::size_t rows)
      : piece_{std::move(head)}, row_{std::move(row)}, left_{rows} {
    point();
  }

 protected:
  int_type underflow() override {
    if (left_ == 0) return traits_type::eof();
    --left_;
    piece_ = row_;
    point();
    return traits_type::to_int_type(piece_.front());
  }

 private:
  void point() { setg(piece_.data(), piece_.data(), piece_.data() + piece_.size()); }
  std::string piece_, row_;
  std::size_t left_;
};

long resident_kilobytes() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return usage.ru_maxrss;
}

/// Does the document hold a null anywhere but where a list has no answer by contract?
bool has_hole(const nlohmann::json& at) {
  if (at.is_null()) return true;
  if (!at.is_structured()) return false;
  for (const auto& [key, value] : at.items()) {
    if (key == "told_by" || key == "likelier_slip") continue;
    if (has_hole(value)) return true;
  }
  return false;
}

/// What is printed, as one line: where it was broken does not matter.
std::string flat(const std::string& line, const std::string& table = "") {
  std::string out = typed(line, table).out;
  std::replace(out.begin(), out.end(), '\n', ' ');
  return out;
}

const std::string kThree =
    "club,start,curve,contact,divot_start_mm\n"
    "7i,right,left,clean,20\n"
    "7i,straight,none,clean,35\n"
    "7i,right,left,fat,-30\n";

}  // namespace

TEST_CASE("a reading answers with the keys of its contract") {
  const nlohmann::json out = read_json(kThree);
  for (const char* key :
       {"patterns", "swings", "causes", "cannot_tell_apart", "conflicts", "next_look", "exercises"}) {
    CAPTURE(key);
    CHECK(out[key].is_array());
  }
  CHECK(out.contains("health"));
  REQUIRE(out["patterns"].size() == 1);
  REQUIRE(out["swings"].size() == 3);
  CHECK(out["patterns"][0]["club"] == "7i");
  CHECK(out["patterns"][0]["condition"] == "normal");
  CHECK(out["patterns"][0]["n"] == 3);
  CHECK(out["swings"][2]["swing"] == 3);
  for (const char* key : {"low_point_mm", "low_point_depth_mm", "shaft_lean_deg", "attack_deg", "path_deg",
                          "face_deg", "face_to_path_deg", "delivered_loft_deg", "plane_direction_deg",
                          "strike_toe_mm", "strike_up_mm", "club_speed_mps", "divot_start_mm"}) {
    for (const nlohmann::json& at :
         {out["patterns"][0]["mean"], out["patterns"][0]["scatter"], out["swings"][0]}) {
      CAPTURE(key);
      for (const char* part : {"mean", "sd", "p10", "p90"}) CHECK(at[key][part].is_number());
      CHECK(at[key]["p10"].get<double>() <= at[key]["p90"].get<double>());
      CHECK(at[key]["sd"].get<double>() >= 0.0);
    }
  }
}

TEST_CASE("clubs and conditions make patterns of their own") {
  const nlohmann::json out =
      read_json("club,condition,divot_start_mm\n7i,normal,20\n7i,lead_leg,90\npw,normal,10\n7i,,25\n");
  REQUIRE(out["patterns"].size() == 3);
  CHECK(out["patterns"][0]["n"] == 2);
  CHECK(out["patterns"][1]["condition"] == "lead_leg");
  CHECK(out["patterns"][2]["club"] == "pw");
}

TEST_CASE("causes answer with the keys of their contract, likeliest first") {
  const nlohmann::json out = read_json(kThree);
  REQUIRE(out["causes"].size() == 7);
  std::vector<std::string> names;
  double all = 0.0, before = 1.0;
  for (const nlohmann::json& cause : out["causes"]) {
    names.push_back(cause["name"]);
    for (const char* part : {"mean", "sd", "p10", "p90"}) CHECK(cause["shift"][part].is_number());
    CHECK(cause["shift"]["unit"].is_string());
    for (const char* key : {"low_point_mm", "start_deg", "curve_m", "carry_m"}) {
      CHECK(cause["share_of_scatter"][key].get<double>() >= 0.0);
      CHECK(cause["share_of_scatter"][key].get<double>() <= 1.0);
    }
    const double leads = cause["probability_leading"];
    CHECK(leads <= before);
    before = leads;
    all += leads;
    CHECK(cause["club"] == "7i");
    CHECK(cause["condition"] == "normal");
  }
  CHECK(all == Approx(1.0));
  std::sort(names.begin(), names.end());
  CHECK(names == std::vector<std::string>{"face_turn", "handle", "height", "plane_tilt", "release", "speed",
                                          "weight"});
}

TEST_CASE("shares of the scatter and what is no cause make the whole") {
  const nlohmann::json group = read_json(kThree)["groups"][0];
  for (const char* key : {"low_point_mm", "start_deg", "curve_m", "carry_m"}) {
    CAPTURE(key);
    double all = group["no_cause_share_of_scatter"][key];
    for (const nlohmann::json& cause : group["causes"]) all += cause["share_of_scatter"][key].get<double>();
    CHECK(all == Approx(1.0));
  }
}

TEST_CASE("whatever is known or not, the answer is whole: no number is missing") {
  for (const char* table : {"club\n7i\n", "club,carry_m\n7i,\n7i,\n", "club,ball,divot_start_mm\n7i,no,40\n",
                            "club,carry_m\ndriver,200\n", "club,contact\n7i,topped\n7i,topped\n",
                            "club,surface,contact\n7i,mat,fat\n", "club,ball\n7i,no\n",
                            "club,condition,carry_m\n7i,lead_leg,\n7i,trail_leg,90\n7i,step,80\n7i,feet_"
                            "together,70\n7i,trail_hand,50\n",
                            "club,hand,carry_m\n7i,left,120\n7i,right,120\npw,left,\n"}) {
    CAPTURE(table);
    const nlohmann::json out = read_json(table, "--compare-swings");
    CHECK(!has_hole(out));
    CHECK(out["causes"].size() == 7);
    CHECK(typed("read - --compare-swings --explain", table).out.find("nan") == std::string::npos);
  }
}

TEST_CASE("a blank lesson says nothing of causes, but what to look at") {
  const Typed blank = typed("read -", "club,carry_m\n7i,\n7i,\n");
  CHECK(blank.says("Of causes nothing can be said"));
  CHECK(blank.says("Next look"));
  CHECK(blank.says(" seconds)"));
  CHECK(!blank.says("furthest off"));
}

TEST_CASE("one swing says nothing of scatter, few say first that it is mostly what is usual") {
  const Typed one = typed("read -", "club,divot_start_mm\n7i,25\n");
  CHECK(one.says("furthest off"));
  CHECK(!one.says("Why it scatters"));
  CHECK(!one.says("share of the scatter"));
  const std::string few = "Why it scatters. From so few swings mostly what is usual: the low point";
  CHECK(flat("read -", "club,divot_start_mm\n7i,25\n7i,30\n").find(few) != std::string::npos);
  CHECK(flat("read demo/lesson.csv").find("Why it scatters: the low point") != std::string::npos);
}

TEST_CASE("a usual swing has no cause that stands out, and then there is nothing to tell apart") {
  const std::string usual = flat("read -", "club,start,contact\n7i,straight,clean\n7i,straight,clean\n");
  CHECK(usual.find("No cause stands out: none is clearly other than usual") != std::string::npos);
  CHECK(usual.find("told apart") == std::string::npos);
}

TEST_CASE("causes of different things are open, not alike, and one look is named once for all of them") {
  const std::string demo = flat("read demo/lesson.csv");
  CHECK(demo.find("furthest off: the weight, the release or the handle (the weight and") !=
        std::string::npos);
  const std::string look = "most would be told by swings with the feet together";
  REQUIRE(demo.find(look) != std::string::npos);
  CHECK(demo.find(look) == demo.rfind(look));
  CHECK(demo.find("handle and the weight cannot be told apart") == std::string::npos);
}

TEST_CASE("rough swings are those of the rule over the table: a heavy tail alone does not make one") {
  std::size_t rough = 0, heavy = 0;
  for (const char* cells : {"60,1", "-20,8"}) {  // too sure by far; and sure enough for a heavy tail
    const std::string table = std::string("club,divot_start_mm,sure_divot_start_mm\n7i,") + cells + "\n";
    const std::string out = typed("read --explain -", table).out;
    REQUIRE(out.find("rough: a tail index above 0.7 and fewer than 15 draws") != std::string::npos);
    std::istringstream rows(out.substr(out.rfind("draws that count") + 16));
    std::string swing, tail, draws, verdict;
    while (rows >> swing >> tail >> draws >> verdict && (verdict == "rough" || verdict == "good")) {
      CHECK((verdict == "rough") == (std::stod(tail) > 0.7 && std::stod(draws) < 15.0));
      rough += verdict == "rough" ? 1 : 0;
      heavy += std::stod(tail) > 0.7 ? 1 : 0;
    }
  }
  CHECK(rough > 0);
  CHECK(heavy > rough);
}

TEST_CASE("sentences come before all figures") {
  const std::string out = typed("read cases/lesson/legs.csv").out;
  const std::size_t why = out.find("Why it scatters"),
                    lead = out.find("7i, weight on the lead leg, 2 swings"),
                    trail = out.find("7i, weight on the trail leg, 2 swings"),
                    figures = out.find("80 % from");
  REQUIRE(why != std::string::npos);
  CHECK(lead < trail);
  CHECK(trail < why);
  CHECK(why < figures);
}

TEST_CASE("a left-hander's handle has the same figure and the other word") {
  const nlohmann::json right = read_json(text_of("cases/lesson/across.csv"));
  const nlohmann::json left = read_json(text_of("cases/lesson/across_left.csv"));
  REQUIRE(right["causes"][0]["name"] == "handle");
  CHECK(left["causes"][0]["shift"] == right["causes"][0]["shift"]);
  CHECK(typed("read cases/lesson/across.csv").says("handle (right +)"));
  CHECK(typed("read cases/lesson/across_left.csv").says("handle (left +)"));
  CHECK(typed("read cases/lesson/across_left.csv").says("face turn (closed +)"));
}

TEST_CASE("a slip is named with its swing, its column and what it may be") {
  const nlohmann::json conflict = read_json(text_of("cases/lesson/slip.csv"))["conflicts"][0];
  CHECK(conflict["swing"] == 3);
  CHECK(conflict["columns"][0] == "path_deg");
  CHECK(conflict["likelier_slip"] == "sign");
  CHECK(conflict["odds"].get<double>() > 1.0);
  const std::string text = conflict["text"];
  CHECK(text.find("path says -6.0 deg") == 0);
  CHECK(read_json(text_of("cases/lesson/across.csv"))["conflicts"].empty());
}

TEST_CASE("the club with most swings speaks at the top, all speak in groups") {
  const nlohmann::json out = read_json("club,divot_start_mm\n7i,20\npw,10\npw,15\n9i,10\n");
  CHECK(out["causes"][0]["club"] == "pw");
  REQUIRE(out["groups"].size() == 3);
  CHECK(out["groups"][1]["n"] == 2);
  CHECK(out["causes"] == out["groups"][1]["causes"]);
  CHECK(out["next_look"] == out["groups"][1]["next_look"]);
}

TEST_CASE("shifts are measured from the best only where there is a best") {
  const std::string good = "7i,straight,none,clean,40\n", bad = "7i,left,right,fat,-60\n";
  const std::string head = "club,start,curve,contact,divot_start_mm\n";
  const nlohmann::json some = read_json(head + good + good + good + bad + bad, "--from best");
  CHECK(some["groups"][0]["from"] == "best");
  const nlohmann::json few = read_json(head + good + good + bad, "--from best");
  CHECK(few["groups"][0]["from"] == "usual");
  CHECK(few["groups"][0]["from_best_possible"] == false);
  CHECK(typed("read - --from best", head + good + good + bad).says("Fewer than three swings"));
  CHECK(typed("read - --from worst", head + good).code == 2);
}

TEST_CASE("two ways of swinging are compared on request, without balls only over the turf") {
  CHECK(!read_json(kThree).contains("compare_swings"));
  const nlohmann::json ways = read_json(kThree, "--compare-swings")["compare_swings"][0]["ways"];
  REQUIRE(ways.size() == 2);
  CHECK(ways[0]["name"] == "wrist-driven");
  CHECK(ways[0]["low_point_mm"]["sd"].get<double>() > ways[1]["low_point_mm"]["sd"].get<double>());
  CHECK(ways[0]["thin"].get<double>() > ways[1]["thin"].get<double>());
  const nlohmann::json chalk =
      read_json("club,ball,divot_start_mm\n7i,no,40\n", "--compare-swings")["compare_swings"][0]["ways"];
  CHECK(chalk[0].contains("low_point_mm"));
  CHECK(!chalk[0].contains("carry_m"));
}

TEST_CASE("metric and yards files of the same swing give the same reading") {
  const nlohmann::json metric =
      read_json("club,carry_m,divot_start_mm,club_speed_mps\n7i,137.16,25.4,35.7632\n");
  const nlohmann::json yards = read_json("club,carry_yd,divot_start_in,club_speed_mph\n7i,150,1,80\n");
  const auto low = [](const nlohmann::json& j) {
    return j["swings"][0]["low_point_mm"]["mean"].get<double>();
  };
  // 1e-6: the unit conversions differ in the last bit and the search for the maximum passes that on.
  CHECK(low(yards) == Approx(low(metric)).epsilon(1e-6));
}

TEST_CASE("a left-hander's mirrored sightings give the right-hander's reading") {
  const nlohmann::json right =
      read_json("club,start_deg,curve_m,divot_direction_deg,face_deg\n7i,2,-6,3,1\n");
  const nlohmann::json left =
      read_json("club,start_deg,curve_m,divot_direction_deg,face_deg\n7i,-2,6,-3,1\n", "--hand left");
  for (const char* key : {"path_deg", "face_deg", "low_point_mm", "plane_direction_deg"}) {
    CAPTURE(key);
    CHECK(left["swings"][0][key] == right["swings"][0][key]);
  }
}

TEST_CASE("plain sentences come first, in centimetres or inches") {
  const Typed metric = typed("read -", kThree);
  CHECK(metric.out.rfind("7i, 3 swings\n\nLow point ", 0) == 0);
  CHECK(metric.says("80 % sure between"));
  CHECK(metric.says(" cm "));
  const Typed yards = typed("read - --units yards", kThree);
  CHECK(yards.says(" in "));
  CHECK(yards.says("mph"));
  CHECK(!yards.says(" cm "));
}

TEST_CASE("every line of a reading fits 80 columns") {
  for (const char* options :
       {"", "--explain", "--units yards --explain", "--explain --truth demo/lesson-truth.csv",
        "--compare-swings --from best", "--compare-swings --units yards --hand left"}) {
    CAPTURE(options);
    std::istringstream lines(typed(std::string("read demo/lesson.csv ") + options).out);
    for (std::string line; std::getline(lines, line);) {
      CAPTURE(line);
      CHECK(shown_width(line) <= kColumns);
      CHECK(line.rfind("%", 0) != 0);
    }
  }
}

TEST_CASE("explain says what each quantity owes to what was likely before") {
  const Typed explained = typed("read - --explain", kThree);
  CHECK(explained.says("owed to before"));
  CHECK(explained.says("assumption"));
  CHECK(explained.says("Health of the arithmetic"));
}

TEST_CASE("what nobody looked at owes everything to the prior, what was measured little") {
  const nlohmann::json out = read_json("club,divot_start_mm\n7i,40\n");
  // Some 66 draws count: they know a variance to 17 %.
  CHECK(out["swings"][0]["strike_toe_mm"]["owed_to_prior"].get<double>() > 0.65);
  CHECK(out["swings"][0]["divot_start_mm"]["owed_to_prior"].get<double>() < 0.2);
}

TEST_CASE("a tape held to a millimetre is more than the draws can follow, and the reading says so") {
  const Typed sharp = typed("read -", "club,divot_start_mm,sure_divot_start_mm\n7i,60,1\n");
  CHECK(sharp.says("Rough: swing 1."));
}

TEST_CASE("a file of a million rows is refused with its count, in little memory") {
  constexpr std::size_t kRows = 1'000'000;
  ManyRows rows("club,divot_start_mm\n", "7i,25\n", kRows);
  std::istream in(&rows);
  const long before = resident_kilobytes();
  const Typed refused = typed_from("read -", in);
  CHECK(refused.code == 2);
  CHECK(refused.complains("1000000"));
  CHECK(refused.complains("2000"));
  // 2000 swings of two sightings take about 2 MB; 32 MB leaves room for the allocator and fails if rows are
  // kept.
  CHECK(resident_kilobytes() - before < 32 * 1024);
}

TEST_CASE("the limit on swings can be set") {
  CHECK(typed("read - --most 2", kThree).code == 2);
  CHECK(typed("read - --most 3", kThree).code == 0);
}

TEST_CASE("what is wrong with a file is said with line, column, found and expected") {
  const auto complaint = [](const std::string& table, const std::string& options = "") {
    const Typed wrong = typed("read - " + options, table);
    CHECK(wrong.code == 2);
    CHECK(wrong.out == "");
    return wrong.err;
  };
  CHECK(complaint("club,carry\n7i,150\n").find("did you mean 'carry_m'?") != std::string::npos);
  CHECK(complaint("club,carry_m\n7i,far\n").find("standard input:2:2, carry_m: found 'far'") == 0);
  CHECK(complaint("club,ball_speed_mps\n7i,900\n").find("found '900', expected a number from") !=
        std::string::npos);
  CHECK(complaint("club,ball,carry_m\n7i,no,150\n").find("ball = no") != std::string::npos);
  CHECK(complaint("").find("standard input") == 0);
  CHECK(complaint("7i,150\n").find("header") != std::string::npos);
  CHECK(complaint("carry_m\n150\n").find("club") != std::string::npos);
  CHECK(complaint(std::string("club,carry_m\n7i,\0\x01\xff\n", 20)).find("standard input:2") == 0);
  CHECK(complaint("club,carry_m\n7i,150,5\n").find("decimal comma") != std::string::npos);
  CHECK(complaint("club,carry_m\n9x,150\n").find("9x") != std::string::npos);
  CHECK(complaint(kThree, "--club 7x").find("--club: found") == 0);
  CHECK(complaint("club,carry_m\n7i,far\n7i,near\n").find("'near'") != std::string::npos);
  CHECK(typed("read no/such.csv").complains("no/such.csv: found no such file"));
  CHECK(typed("read demo").complains("a folder"));
}

TEST_CASE("line ends, byte-order mark and blanks do not matter") {
  const nlohmann::json plain = read_json("club,divot_start_mm\n7i,25\n");
  CHECK(read_json("\xEF\xBB\xBF"
                  "club, divot_start_mm\r\n7i , 25\r\n") == plain);
  CHECK(read_json("# a comment\nclub,divot_start_mm,carry_m\n\n7i,25,\n") == plain);
}

TEST_CASE("equal seeds invent equal lessons, other seeds others") {
  const std::string lesson = typed("simulate --swings 4 --seed 5").out;
  CHECK(lesson == typed("simulate --swings 4 --seed 5").out);
  CHECK(lesson != typed("simulate --swings 4 --seed 6").out);
  CHECK(lesson.rfind("# Invented by strikewright simulate", 0) == 0);
}

TEST_CASE("an invented lesson of every look, hand and surface can be read again") {
  for (const std::string& look : look_names()) {
    for (const char* more : {"", " --hand left", " --surface mat", " --no-ball",
                             " --club driver --surface tee", " --skill beginner --club sw --surface sand"}) {
      CAPTURE(look);
      CAPTURE(more);
      const Typed lesson = typed("simulate --swings 3 --look " + look + more);
      REQUIRE(lesson.code == 0);
      CHECK(typed("read - --json", lesson.out).err == "");
    }
  }
}

TEST_CASE("a left-handed invented lesson is the right-handed one in a mirror") {
  const nlohmann::json right = read_json(typed("simulate --swings 3 --look full").out);
  const nlohmann::json left = read_json(typed("simulate --swings 3 --look full --hand left").out);
  CHECK(left["patterns"][0]["mean"] == right["patterns"][0]["mean"]);
}

TEST_CASE("the pattern that was asked for is the one that is invented") {
  InventOptions options;
  options.setting.club = *club_of(BagGiven{});
  options.pattern.at[3] = -0.02;  // low point
  options.swings = 200;
  double mean = 0.0;
  for (const InventedSwing& swing : invent(options)) mean += swing.shot.pass.low_point / 200.0;
  // 0.45 of a club player's 45 mm over sqrt(200) swings is 1.4 mm; 4 of those.
  CHECK(std::abs(mean + 0.02) < 0.0057);
}

TEST_CASE("the demo is what its command makes") {
  const std::string read_me = text_of("demo/README.md");
  const std::size_t from = read_me.find("strikewright simulate ");
  REQUIRE(from != std::string::npos);
  std::string line = read_me.substr(from, read_me.find('\n', from) - from);
  const std::string out = " --out demo/lesson.csv --truth demo/lesson-truth.csv";
  REQUIRE(line.find(out) != std::string::npos);
  const std::string truth = (std::filesystem::temp_directory_path() / "strikewright-demo-truth.csv").string();
  line.replace(line.find(out), out.size(), " --truth " + truth);
  const Typed made = typed(line.substr(std::string("strikewright ").size()));
  CHECK(made.code == 0);
  CHECK(made.out == text_of("demo/lesson.csv"));
  CHECK(text_of(truth) == text_of("demo/lesson-truth.csv"));
  std::filesystem::remove(truth);
}

TEST_CASE("reading against truth counts what is inside") {
  const Typed compared = typed("read demo/lesson.csv --truth demo/lesson-truth.csv");
  CHECK(compared.code == 0);
  CHECK(compared.says("Reading against truth: 7i, 12 swings"));
  CHECK(compared.says("Inside the 80 % intervals: "));
  CHECK(typed("read demo/lesson.csv --truth demo/lesson.csv").code == 2);
}

TEST_CASE("a truth that lacks a swing or a key is a fault") {
  const std::string text = text_of("demo/lesson-truth.csv");
  CHECK(truth_from(text, "t.csv"));
  CHECK(truth_from("swing,low_point_mm\n1,2\n", "t.csv").error().found.find("low_point_depth_mm") !=
        std::string::npos);
  CHECK(truth_from("swing,low_poin_mm\n1,2\n", "t.csv").error().expected.find("low_point_mm") !=
        std::string::npos);
  CHECK(!truth_from("", "t.csv"));
}

TEST_CASE("recovery reports every quantity against its bound") {
  const nlohmann::json out = typed("recover --swings 20 --json").json();
  CHECK(out["swings"] == 20);
  CHECK(out["rows"]["low_point_mm"]["rms_error"].get<double>() > 0.0);
  CHECK(out["rows"]["low_point_mm"]["bound"].get<double>() > 0.0);
}

TEST_CASE("columns lists every column with its words and spread") {
  const std::string list = typed("columns").out;
  for (const char* name :
       {"divot_start_mm", "contact", "spin_axis_deg", "feet_together", "fairway_soft", "sure_COLUMN"}) {
    CAPTURE(name);
    CHECK(list.find(name) != std::string::npos);
  }
  CHECK(typed("columns --json").json().size() == 30);
}
