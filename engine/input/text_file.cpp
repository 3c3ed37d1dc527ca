#include "engine/input/text_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>

#include "engine/input/problems.hpp"

namespace dullcast::input {
namespace {

[[noreturn]] void refuse(const std::string& path, const std::string& why) {
  throw ScenarioErrors({path + ": " + why});
}

/// An open file; closed at the end of its scope.
struct OpenFile {
  int number;
  explicit OpenFile(int opened) : number(opened) {}
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;
  ~OpenFile() {
    if (number >= 0) ::close(number);
  }
};

}  // namespace

std::string read_text_file(const std::string& path, std::size_t most) {
  const auto unread = [&] { refuse(path, "cannot be read; check its name and that it is a readable file"); };
  // Opening a pipe that nobody writes to waits for ever without O_NONBLOCK.
  const OpenFile file(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC | O_NOCTTY));
  if (file.number < 0) unread();
  struct stat what {};
  if (::fstat(file.number, &what) != 0) unread();
  if (!S_ISREG(what.st_mode)) {
    const char* kind = S_ISDIR(what.st_mode) ? "a folder" : S_ISFIFO(what.st_mode) ? "a pipe" : "a device";
    refuse(path, "cannot be read: it is " + std::string(kind) + "; name an ordinary file");
  }
  const auto too_large = [&] {
    refuse(path, "is larger than " + std::to_string(most >> 20) + " MiB, more than any file of its kind");
  };
  // A file that goes by its size is refused unread; one may grow, and those under /proc state no size.
  if (what.st_size > 0 && static_cast<std::size_t>(what.st_size) > most) too_large();
  std::string text;
  char buffer[1 << 16];
  for (;;) {
    const ssize_t count = ::read(file.number, buffer, sizeof buffer);
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) unread();
    if (count == 0) return text;
    text.append(buffer, static_cast<std::size_t>(count));
    if (text.size() > most) too_large();
  }
}

}  // namespace dullcast::input
