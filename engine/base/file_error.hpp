#pragma once

#include <stdexcept>
#include <string>

namespace dullcast::base {

/// A result file that cannot be written, read or used: what() is "path: reason", one sentence for a person.
class FileError : public std::runtime_error {
 public:
  FileError(const std::string& path, const std::string& reason)
      : std::runtime_error(path + ": " + reason), path_(path), reason_(reason) {}
  const std::string& path() const { return path_; }
  const std::string& reason() const { return reason_; }

 private:
  std::string path_, reason_;
};

}  // namespace dullcast::base
