#pragma once

#include <functional>
#include <iosfwd>
#include <string>
#include <utility>
#include <vector>

/// The table that holds the model against what was measured or published.
namespace dullcast::proofs {

/// What a line is worth.
enum class Standing {
  predicted,  ///< nothing of it went into the model
  input,      ///< the model took this number or form from the same source: it shows that the code does so
  fitted      ///< two numbers of the model were chosen on it: it is no prediction
};
const char* standing_words(Standing standing);

/// One line: what is held against what, and whether it holds. Numbers are in the units that the words show.
struct Line {
  std::string what, source;
  std::string published, model, difference;  // as they are shown
  Standing standing = Standing::predicted;
  bool holds = false;
};

/// A part of the table.
struct Section {
  std::string title;
  std::vector<std::string> notes;  // sentences above its lines
  std::vector<Line> lines;
  int failing() const;
};

/// printf-style text of one number.
std::string number_words(const char* format, double value);

/// A published number with the margin that its own rounding or its author's statement allows: |model -
/// published| <= margin. A NaN does not hold. The difference is shown in percent of the published value.
Line number_line(const std::string& what, const std::string& source, const char* format, double published,
                 double model, double margin, Standing standing = Standing::predicted);

/// The greatest departure of a closed form from an exact solution over a range, against the departure that
/// is claimed (both relative, >= 0).
Line departure_line(const std::string& what, const std::string& source, double claimed, double greatest,
                    Standing standing = Standing::predicted);

/// A published direction, "rises" or "falls", held when every value along `values` follows it by more than
/// the share `least` of itself. The model's words give the ends in `format`.
Line trend_line(const std::string& what, const std::string& source, bool rises,
                const std::vector<double>& values, const char* format, double least = 0.0);

/// A curve for the figures: points of one series in one panel.
struct Curve {
  std::string panel, title, x_label, y_label, series;
  bool published = false;  // of the source, not the model
  bool holds = true;
  std::vector<std::pair<double, double>> points;
};

/// Prints a section: every line with its verdict first.
void print_section(std::ostream& out, const Section& section);

/// Makes a folder unless it is there. Throws std::runtime_error with the path.
void make_folder(const std::string& folder);

/// Writes text into FOLDER/name aside and renames it. Throws std::runtime_error with the path.
void write_text(const std::string& folder, const std::string& name, const std::string& text);

/// One row of comma-separated values, quoted where needed.
std::string csv_row(const std::vector<std::string>& cells);
std::string lines_csv(const std::vector<Section>& sections);
std::string curves_csv(const std::vector<Curve>& curves);

}  // namespace dullcast::proofs
