#include "tools/page_maker/assemble_page.hpp"

#include <algorithm>
#include <cctype>
#include <sstream>
#include <stdexcept>

#include "tools/page_maker/page_files.hpp"

namespace dullcast::page_maker {
namespace {

/// A carried text that goes into an element which `end` would end ("</script").
std::string_view inside_element(const std::string& path, std::string_view end) {
  const std::string_view text = page_file(path);
  const auto found = std::search(text.begin(), text.end(), end.begin(), end.end(), [](char a, char b) {
    return std::tolower(static_cast<unsigned char>(a)) == b;
  });
  if (found != text.end()) throw std::logic_error("assemble_page: " + path + " would end its own element");
  return text;
}

/// Who made a script of third_party/NAME/ and under which terms, as a comment: a page is a copy that has to
/// say so. Nothing for our own.
std::string licence_of(const std::string& path) {
  if (path.rfind("third_party/", 0) != 0) return "";
  return "/*\n" + std::string(inside_element(path.substr(0, path.rfind('/')) + "/LICENSE", "*/")) + "*/\n";
}

void add_with_needs(const std::string& script, std::vector<std::string>& seen,
                    std::vector<std::string>& all) {
  if (std::find(seen.begin(), seen.end(), script) != seen.end()) return;
  seen.push_back(script);
  std::istringstream text{std::string(page_file(script))};
  for (std::string line; std::getline(text, line) && line.rfind("//", 0) == 0;) {
    if (line.rfind("// needs ", 0) != 0) continue;
    std::istringstream words(line.substr(9));
    for (std::string path; words >> path;) add_with_needs(path, seen, all);
  }
  all.push_back(script);
}

bool is_id(std::string_view id) {
  return !id.empty() && std::all_of(id.begin(), id.end(), [](char letter) {
    return letter == '-' || std::isalnum(static_cast<unsigned char>(letter)) != 0;
  });
}

}  // namespace

std::string html_text(std::string_view text) {
  std::string told;
  for (const char letter : text) {
    switch (letter) {
      case '&':
        told += "&amp;";
        break;
      case '<':
        told += "&lt;";
        break;
      case '>':
        told += "&gt;";
        break;
      case '"':
        told += "&quot;";
        break;
      case '\'':
        told += "&#39;";
        break;
      default:
        told += letter;
    }
  }
  return told;
}

std::string json_in_script(std::string_view json) {
  std::string told;
  told.reserve(json.size());
  for (const char letter : json) {
    if (letter == '<')
      told += "\\u003c";
    else
      told += letter;
  }
  return told;
}

std::vector<std::string> with_needs(const std::vector<std::string>& scripts) {
  std::vector<std::string> seen, all;
  for (const std::string& script : scripts) add_with_needs(script, seen, all);
  return all;
}

std::string assemble_page(const Page& page) {
  std::string html =
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; "
      "script-src 'unsafe-inline'";
  // The engine works in a worker of the page's own making.
  if (page.runs_engine) html += " 'wasm-unsafe-eval'; worker-src blob:";
  html +=
      "; img-src data: blob:; base-uri 'none'; form-action 'none'\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta name=\"color-scheme\" content=\"light dark\">\n"
      "<link rel=\"icon\" href=\"data:,\">\n<title>" +
      html_text(page.title) + "</title>\n";
  for (const std::string& style : page.styles)
    (html += "<style>\n").append(inside_element(style, "</style")).append("</style>\n");
  html += "</head>\n<body>\n";
  html += page_file(page.body);
  for (const PageData& data : page.data) {
    if (!is_id(data.id)) throw std::logic_error("assemble_page: no id: " + data.id);
    html += "<script type=\"application/json\" id=\"" + data.id + "\">" + json_in_script(data.json) +
            "</script>\n";
  }
  for (const std::string& script : with_needs(page.scripts))
    (html += "<script>\n" + licence_of(script))
        .append(inside_element(script, "</script"))
        .append("</script>\n");
  return html += "</body>\n</html>\n";
}

}  // namespace dullcast::page_maker
