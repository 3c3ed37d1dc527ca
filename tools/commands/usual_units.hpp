#pragma once

#include <boost/program_options.hpp>
#include <string>

#include "engine/base/display.hpp"

namespace dullcast::commands {

/// Adds --units, whose default is the user's own (usual_units).
void add_units_option(boost::program_options::options_description& shown);

/// What --units asks for: field, si or both; without it, what usual_units says. Throws WrongWords.
base::ShownUnits units_of(const boost::program_options::variables_map& values);

/// The word a user has chosen once for all commands: the environment variable DULLCAST_UNITS, else the first
/// word of the file dullcast/units in the user's folder of settings (XDG Base Directory Specification 0.8:
/// $XDG_CONFIG_HOME, else ~/.config), else "field". `from` is set to where it stands, for messages; empty for
/// the default.
std::string usual_units(std::string& from);

}  // namespace dullcast::commands
