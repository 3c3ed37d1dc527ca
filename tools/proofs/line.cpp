#include "tools/proofs/line.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <ostream>
#include <stdexcept>

namespace dullcast::proofs {

const char* standing_words(Standing standing) {
  switch (standing) {
    case Standing::predicted:
      return "predicted";
    case Standing::input:
      return "input";
    case Standing::fitted:
      return "fitted";
  }
  return "";
}

int Section::failing() const {
  return static_cast<int>(
      std::count_if(lines.begin(), lines.end(), [](const Line& line) { return !line.holds; }));
}

std::string number_words(const char* format, double value) {
  char text[200];
  std::snprintf(text, sizeof text, format, value);
  return text;
}

Line number_line(const std::string& what, const std::string& source, const char* format, double published,
                 double model, double margin, Standing standing) {
  return {what,
          source,
          number_words(format, published),
          number_words(format, model),
          number_words("%+.1f %%", 100.0 * (model / published - 1.0)),
          standing,
          std::abs(model - published) <= margin};
}

Line departure_line(const std::string& what, const std::string& source, double claimed, double greatest,
                    Standing standing) {
  return {what,
          source,
          number_words("within %.3g %%", 100.0 * claimed),
          number_words("%.3g %% at most", 100.0 * greatest),
          number_words("%+.2g %% points", 100.0 * (greatest - claimed)),
          standing,
          greatest <= claimed};
}

Line trend_line(const std::string& what, const std::string& source, bool rises,
                const std::vector<double>& values, const char* format, double least) {
  bool follows = values.size() > 1;
  for (std::size_t i = 1; i < values.size(); ++i) {
    const double change = values[i] / values[i - 1] - 1.0;
    follows = follows && (rises ? change > least : change < -least);
  }
  const double first = values.front(), last = values.back();
  return {what,
          source,
          rises ? "rises" : "falls",
          number_words(format, first) + " to " + number_words(format, last),
          number_words("x %.3g", last / first),
          Standing::predicted,
          follows};
}

void print_section(std::ostream& out, const Section& section) {
  out << section.title << "\n";
  for (const std::string& note : section.notes) out << "  " << note << "\n";
  const std::vector<std::string> head = {"", "what", "published", "model", "difference", "standing"};
  std::vector<std::size_t> wide;
  for (const std::string& word : head) wide.push_back(word.size());
  std::vector<std::vector<std::string>> rows = {head};
  rows.reserve(section.lines.size() + 1);
  for (const Line& line : section.lines)
    rows.push_back({line.holds ? "holds" : "FAILS", line.what, line.published, line.model, line.difference,
                    standing_words(line.standing)});
  for (const auto& row : rows)
    for (std::size_t k = 0; k < row.size(); ++k) wide[k] = std::max(wide[k], row[k].size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    out << "  ";
    for (std::size_t k = 0; k < head.size(); ++k)
      out << rows[i][k] << std::string(wide[k] - rows[i][k].size() + 2, ' ');
    out << (i == 0 ? "source" : section.lines[i - 1].source) << "\n";
  }
  out << "\n";
}

void make_folder(const std::string& folder) {
  std::error_code trouble;
  std::filesystem::create_directories(folder, trouble);
  if (!std::filesystem::is_directory(folder))
    throw std::runtime_error(folder + ": cannot be written: it is no folder and none can be made there");
}

void write_text(const std::string& folder, const std::string& name, const std::string& text) {
  namespace fs = std::filesystem;
  std::error_code trouble;
  const fs::path path = fs::path(folder) / name;
  fs::path aside = path;
  aside += ".tmp";
  {
    std::ofstream file(aside, std::ios::binary);
    file << text;
    file.close();
    if (!file) throw std::runtime_error(path.string() + ": cannot be written");
  }
  fs::rename(aside, path, trouble);
  if (trouble) throw std::runtime_error(path.string() + ": cannot be written (" + trouble.message() + ")");
}

std::string csv_row(const std::vector<std::string>& cells) {
  std::string row;
  for (std::size_t k = 0; k < cells.size(); ++k) {
    if (k > 0) row += ',';
    if (cells[k].find_first_of(",\"\n") == std::string::npos) {
      row += cells[k];
      continue;
    }
    row += '"';
    for (const char letter : cells[k]) {
      if (letter == '"') row += '"';
      row += letter;
    }
    row += '"';
  }
  return row + "\n";
}

std::string lines_csv(const std::vector<Section>& sections) {
  std::string text =
      csv_row({"section", "verdict", "what", "published", "model", "difference", "standing", "source"});
  for (const Section& section : sections)
    for (const Line& line : section.lines)
      text += csv_row({section.title, line.holds ? "holds" : "FAILS", line.what, line.published, line.model,
                       line.difference, standing_words(line.standing), line.source});
  return text;
}

std::string curves_csv(const std::vector<Curve>& curves) {
  std::string text =
      csv_row({"panel", "title", "x_label", "y_label", "series", "published", "verdict", "x", "y"});
  for (const Curve& curve : curves)
    for (const auto& [x, y] : curve.points)
      text += csv_row({curve.panel, curve.title, curve.x_label, curve.y_label, curve.series,
                       curve.published ? "yes" : "no", curve.holds ? "holds" : "FAILS",
                       number_words("%.9g", x), number_words("%.9g", y)});
  return text;
}

}  // namespace dullcast::proofs
