#include "check_report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <ostream>

#include "check_groups.hpp"

namespace strikewright {
namespace {

/// Enough digits to see the difference, no more.
std::string digits(double value, double allowed) {
  if (!std::isfinite(value)) return "not a number";
  if (value != 0.0 && std::abs(value) < 1e-3) return fmt::format("{:.3g}", value);
  const bool printed = allowed > 1e-7;
  const double decimals = printed ? 1.0 + std::ceil(-std::log10(allowed)) : 4.0;
  return fmt::format("{:.{}f}", value + 0.0, static_cast<int>(std::clamp(decimals, 0.0, 7.0)));
}

std::string published_text(const CheckRow& row) {
  if (row.low == row.high) return digits(row.low, row.allowed);
  if (std::isinf(row.high)) return ">= " + digits(row.low, row.allowed);
  if (std::isinf(row.low)) return "<= " + digits(row.high, row.allowed);
  return digits(row.low, row.allowed) + " .. " + digits(row.high, row.allowed);
}

std::string verdict(const CheckRow& row) { return !row.gated ? "shown" : row.pass() ? "pass" : "NOT"; }

void print_row(const CheckRow& row, std::ostream& out) {
  const double shown_allowed = row.gated ? row.allowed : 0.0;
  out << fmt::format("  {:<5}  {:<52} {:>13} {:>21} {:>11} {:>10}  {}\n", verdict(row), row.what,
                     digits(row.measured, shown_allowed), published_text(row),
                     fmt::format("{:+.2g}", row.difference()),
                     row.gated ? fmt::format("{:.2g}", row.allowed) : "-", row.unit);
}

void print_heading(const CheckRow& row, bool verbose, bool new_table, std::ostream& out) {
  if (new_table) out << fmt::format("\n {} ({})\n", row.table, row.tag);
  if (new_table && verbose) out << fmt::format("  source: {}\n", row.source);
  out << fmt::format("  {}: {}\n", row.gated ? "allowed" : "shown", row.reason);
}

std::string sum_text(const CheckSum& sum) {
  return fmt::format("{} rows, {} pass, {} not{}", sum.pass + sum.not_pass, sum.pass, sum.not_pass,
                     sum.shown > 0 ? fmt::format(" ({} more shown only)", sum.shown) : "");
}

nlohmann::ordered_json number_or_null(double value) {
  return std::isfinite(value) ? nlohmann::ordered_json(value) : nlohmann::ordered_json(nullptr);
}

nlohmann::ordered_json json_of(const CheckSum& sum) {
  return {
      {"counted", sum.pass + sum.not_pass}, {"pass", sum.pass}, {"not", sum.not_pass}, {"shown", sum.shown}};
}

}  // namespace

double CheckRow::difference() const {
  if (measured < low) return measured - low;
  if (measured > high) return measured - high;
  return measured - measured;
}

bool CheckRow::pass() const { return measured >= low - allowed && measured <= high + allowed; }

CheckSum CheckReport::sum(const std::string& group) const {
  CheckSum sum;
  for (const CheckRow& row : rows) {
    if (!group.empty() && row.group != group) continue;
    ++(!row.gated ? sum.shown : row.pass() ? sum.pass : sum.not_pass);
  }
  return sum;
}

CheckTable::CheckTable(CheckReport& report, std::string group, std::string_view table)
    : report_(report), group_(std::move(group)), table_(reference_table(table)) {}

void CheckTable::add(CheckRow row, const std::string& reason) {
  row.group = group_;
  row.table = table_.name;
  row.source = table_.source;
  row.tag = table_.tag;
  row.reason = reason.empty() ? table_.tolerance : reason;
  report_.rows.push_back(std::move(row));
}

void CheckTable::compare(const std::string& what, const std::string& unit, double measured, double published,
                         double allowed, const std::string& reason) {
  band(what, unit, measured, published, published, allowed, reason);
}

void CheckTable::printed(const std::string& what, const std::string& unit, double measured,
                         const ReferenceRow& row, const std::string& column) {
  // 1e-9 beside the half digit: the binary form of a printed half.
  compare(what, unit, measured, row.number(column), row.half_digit(column) + 1e-9);
}

void CheckTable::band(const std::string& what, const std::string& unit, double measured, double low,
                      double high, double allowed, const std::string& reason) {
  add({.what = what, .unit = unit, .measured = measured, .low = low, .high = high, .allowed = allowed},
      reason);
}

void CheckTable::show(const std::string& what, const std::string& unit, double measured, double low,
                      double high, const std::string& reason) {
  add({.what = what, .unit = unit, .measured = measured, .low = low, .high = high, .gated = false}, reason);
}

void print_report(const CheckReport& report, bool verbose, std::ostream& out) {
  for (const CheckGroup& group : kCheckGroups) {
    const CheckSum sum = report.sum(group.name);
    if (sum.pass + sum.not_pass + sum.shown == 0) continue;
    out << fmt::format("{}: {}\n", group.name, group.says);
    out << fmt::format("  {:<5}  {:<52} {:>13} {:>21} {:>11} {:>10}\n", "", "", "measured", "published",
                       "difference", "allowed");
    const CheckRow* last = nullptr;
    for (const CheckRow& row : report.rows) {
      if (row.group != group.name) continue;
      if (last == nullptr || last->table != row.table || last->reason != row.reason ||
          last->gated != row.gated)
        print_heading(row, verbose, last == nullptr || last->table != row.table, out);
      print_row(row, out);
      last = &row;
    }
    out << fmt::format("\n{}: {}\n\n", group.name, sum_text(sum));
  }
  out << sum_text(report.sum()) << '\n';
}

void print_report_json(const CheckReport& report, std::ostream& out) {
  nlohmann::ordered_json json = {{"sum", json_of(report.sum())}};
  nlohmann::ordered_json groups = nlohmann::ordered_json::array();
  for (const CheckGroup& group : kCheckGroups) {
    nlohmann::ordered_json one = {{"name", group.name}};
    one.update(json_of(report.sum(group.name)));
    groups.push_back(one);
  }
  nlohmann::ordered_json rows = nlohmann::ordered_json::array();
  for (const CheckRow& row : report.rows)
    rows.push_back({{"group", row.group},
                    {"table", row.table},
                    {"what", row.what},
                    {"unit", row.unit},
                    {"measured", number_or_null(row.measured)},
                    {"published_low", number_or_null(row.low)},
                    {"published_high", number_or_null(row.high)},
                    {"difference", number_or_null(row.difference())},
                    {"allowed", row.gated ? number_or_null(row.allowed) : nullptr},
                    {"reason", row.reason},
                    {"source", row.source},
                    {"tag", row.tag},
                    {"verdict", verdict(row)}});
  json["groups"] = std::move(groups);
  json["rows"] = std::move(rows);
  out << json.dump(1) << '\n';
}

}  // namespace strikewright
