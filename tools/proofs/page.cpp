#include "tools/proofs/page.hpp"

#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include "tools/proofs/line.hpp"

namespace dullcast::proofs {

std::string table_row(const std::vector<std::string>& cells) {
  std::string row = "|";
  for (const std::string& cell : cells) {
    row += ' ';
    for (const char letter : cell) {
      if (letter == '|') row += '\\';
      row += letter;
    }
    row += " |";
  }
  return row + "\n";
}

std::string table_head(const std::vector<std::string>& cells) {
  std::string rule = "|";
  for (std::size_t k = 0; k < cells.size(); ++k) rule += "---|";
  return table_row(cells) + rule + "\n";
}

std::string with_part(const std::string& page, const std::string& part, const std::string& text) {
  const std::string begin = "<!-- " + part + ": written by build/proofs -->\n";
  const std::string end = "<!-- end of " + part + " -->";
  const std::size_t at = page.find(begin);
  if (at == std::string::npos)
    throw std::runtime_error("has no line \"" + begin.substr(0, begin.size() - 1) + "\"");
  const std::size_t from = at + begin.size();
  const std::size_t to = page.find(end, from);
  if (to == std::string::npos) throw std::runtime_error("has no line \"" + end + "\" after the part begins");
  return page.substr(0, from) + text + page.substr(to);
}

void write_part(const std::string& path, const std::string& part, const std::string& text) {
  const std::filesystem::path file = path;
  std::ifstream in(file, std::ios::binary);
  std::ostringstream before;
  if (!in || !(before << in.rdbuf())) throw std::runtime_error(path + ": cannot be read");
  std::string after;
  try {
    after = with_part(before.str(), part, text);
  } catch (const std::runtime_error& error) {
    throw std::runtime_error(path + " " + error.what());
  }
  write_text(file.parent_path().string(), file.filename().string(), after);
}

}  // namespace dullcast::proofs
