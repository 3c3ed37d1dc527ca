#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace dullcast::page_maker {

/// A value that a page's scripts find by its id, as <script type="application/json" id=...>.
struct PageData {
  std::string id;    // letters, digits and -
  std::string json;  // its text
};

/// What one page is made of. Styles, scripts and body are files that the program carries (page_file).
struct Page {
  std::string title;                 // of the window
  std::vector<std::string> styles;   // one after another
  std::string body;                  // HTML between <body> and the scripts
  std::vector<std::string> scripts;  // one after another, after the data, each behind what it needs
  std::vector<PageData> data;
  bool runs_engine = false;  // the page compiles WebAssembly that it carries
};

/// Scripts in the order in which they go into a page: each once, behind those that it needs, which the lines
/// "// needs PATH PATH..." among its first comments name. Throws std::out_of_range for one that is not
/// carried.
std::vector<std::string> with_needs(const std::vector<std::string>& scripts);

/// One HTML file with all of it inside. A Content-Security-Policy forbids it to fetch anything: it opens from
/// a memory stick as it does on a screen in the office. Scripts of third_party/ carry their LICENSE before
/// them. Throws std::out_of_range for a file that is not carried, and std::logic_error for an id that is none
/// and for a script or style that would end its own element.
std::string assemble_page(const Page& page);

/// Text as it stands in HTML: & < > " ' told by name.
std::string html_text(std::string_view text);

/// JSON as it stands in a <script>: every < as \u003c, so that nothing in it ends the element or begins a
/// comment.
std::string json_in_script(std::string_view json);

}  // namespace dullcast::page_maker
