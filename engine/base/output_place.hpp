#pragma once

#include <string>
#include <vector>

/// One rule for all commands: what may be written where.
namespace dullcast::base {

/// What a command is about to write: a file's name as the user gave it, and whether what stands there may go.
struct OutputPlace {
  std::string file;
  bool replace = false;
};

/// Whether two names lead to one file, by whatever links; by name where nothing is there yet.
bool same_place(const std::string& one, const std::string& other);

/// Throws FileError when `file` is one of `inputs` by whatever name, or lies in one that is a folder.
void refuse_inputs(const std::string& file, const std::vector<std::string>& inputs);

/// Holds before any time is spent: the folder is there and can be written in; `file` is no folder and no
/// device; it is none of `inputs`, by whatever name or link (nor a file of the folder of one that is a
/// folder); and when something stands there already, it may be replaced. A symbolic link stands for what it
/// points at. Empty inputs are passed over. Throws FileError, whose sentence names the way out (`--replace`).
void check_output_place(const OutputPlace& place, const std::vector<std::string>& inputs);

/// The same for a folder that a command writes several files into: it may be there or not; what is there must
/// be a folder, and no `names` in it may be an input or, without `replace`, stand there already.
void check_output_folder(const OutputPlace& folder, const std::vector<std::string>& names,
                         const std::vector<std::string>& inputs);

/// Writes text where an output was found to be allowed: whole or not at all (write_whole_file). Throws
/// FileError.
void write_text(const std::string& file, const std::string& text);

}  // namespace dullcast::base
