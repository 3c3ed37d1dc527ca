#pragma once

#include <boost/program_options.hpp>
#include <functional>
#include <iosfwd>
#include <string>
#include <vector>

#include "engine/scenario/inspected_bit.hpp"
#include "engine/scenario/scenario.hpp"
#include "tools/commands/ready_scenario.hpp"

namespace dullcast::commands {

/// The option that lets a command write over a file which is there.
void add_replace_option(boost::program_options::options_description& shown);

/// What one command reads and is about to write, held to base::check_output_place: nothing that it reads is
/// written over, by whatever link, and a file that is there only with --replace.
class Outputs {
 public:
  explicit Outputs(const boost::program_options::variables_map& values);

  /// A file or folder that the command reads; an empty name is passed over.
  void reads(const std::string& path);
  /// All that a scenario leads to: what it goes on from and what it learns from.
  void reads(const scenario::Scenario& scenario);
  /// What a command that drills reads: the scenario asked for, its library and all that it leads to.
  void reads(const Asked& asked, const scenario::Scenario& scenario);
  /// What a command that drills a shelf reads: the shelf asked for, its library and the scenarios of its
  /// records.
  void reads(const std::string& shelf_file, const std::string& library,
             const std::vector<scenario::ShelvedBit>& shelf);
  /// Throws FileError when `file` may not be written, and when another output has its place.
  void will_write(const std::string& file);
  /// The same of the file of --csv, where one was asked for.
  void will_write_csv();
  /// Writes it, where it was, by `print`.
  void write_csv(const std::function<void(std::ostream&)>& print) const;
  /// The same for a folder that gets files of these names.
  void will_fill(const std::string& folder, const std::vector<std::string>& names);

 private:
  bool replace_;
  std::string csv_;  // as asked for; empty for none
  std::vector<std::string> read_, written_;
};

/// Where a command's result lands when nobody says: the name of what it is made from with `ending`, in
/// results/ when there is one.
std::string usual_output(const std::string& made_from, const std::string& ending = ".h5");

}  // namespace dullcast::commands
