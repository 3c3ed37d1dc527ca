#include "tools/page_maker/assemble_page.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <set>
#include <sstream>
#include <stdexcept>

#include "tools/page_maker/page_files.hpp"

namespace dullcast::page_maker {
namespace {

Page small_page() {
  Page page;
  page.title = "two < three & \"more\"";
  page.styles = {"parts/style.css"};
  page.body = "report/report.html";
  page.scripts = {"third_party/d3/d3.min.js", "parts/units.js"};
  page.data = {{"run-1", R"({"title": "</script><script>alert(1)</script><!--"})"}};
  return page;
}

std::size_t count(const std::string& text, const std::string& words) {
  std::size_t found = 0;
  for (std::size_t at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) ++found;
  return found;
}

TEST(AssemblePage, NothingInTheDataEndsItsElement) {
  const std::string html = assemble_page(small_page());
  // One for the data, one for each script; what the title says is no element.
  EXPECT_EQ(count(html, "</script>"), 3u);
  EXPECT_EQ(count(html, "alert(1)"), 1u);
  EXPECT_NE(html.find(R"(\u003c/script>\u003cscript>alert(1)\u003c/script>\u003c!--)"), std::string::npos);
  EXPECT_NE(html.find("<title>two &lt; three &amp; &quot;more&quot;</title>"), std::string::npos);
}

TEST(AssemblePage, FetchesNothing) {
  const std::string html = assemble_page(small_page());
  EXPECT_NE(html.find("default-src 'none'"), std::string::npos);
  EXPECT_EQ(html.find("wasm-unsafe-eval"), std::string::npos);
  for (const char* fetched : {" src=\"http", "href=\"http", "url(http", "@import", "<link rel=\"stylesheet"})
    EXPECT_EQ(count(html, fetched), 0u) << fetched;
  Page engine = small_page();
  engine.runs_engine = true;
  EXPECT_NE(assemble_page(engine).find("'wasm-unsafe-eval'"), std::string::npos);
}

TEST(AssemblePage, RefusesWhatItDoesNotCarryAndIdsThatAreNone) {
  Page page = small_page();
  page.scripts = {"parts/not_there.js"};
  EXPECT_THROW(assemble_page(page), std::out_of_range);
  page = small_page();
  page.data[0].id = "a\" onload=\"";
  EXPECT_THROW(assemble_page(page), std::logic_error);
}

TEST(AssemblePage, ScriptsStandOnceBehindWhatTheyNeed) {
  const std::vector<std::string> all = with_needs({"parts/units.js", "report/report.js"});
  const auto at = [&](const std::string& path) {
    return std::find(all.begin(), all.end(), path) - all.begin();
  };
  EXPECT_EQ(std::set<std::string>(all.begin(), all.end()).size(), all.size());
  EXPECT_LT(at("third_party/d3/d3.min.js"), at("parts/colours.js"));
  EXPECT_LT(at("parts/track_drawing.js"), at("parts/tracks.js"));
  EXPECT_LT(at("parts/tracks.js"), at("report/report.js"));
  EXPECT_EQ(at("parts/units.js"), 0);
  EXPECT_EQ(all.back(), "report/report.js");
}

TEST(AssemblePage, ScriptsOfOthersCarryTheirLicence) {
  const std::string html = assemble_page(small_page());
  const std::size_t licence = html.find("Permission to use, copy, modify");
  ASSERT_NE(licence, std::string::npos);
  EXPECT_LT(licence, html.find("!function(t,n)"));
}

TEST(AssemblePage, EveryCarriedFileIsThereWhole) {
  for (const std::string_view path : page_file_paths()) {
    std::ifstream in(std::string(DULLCAST_SOURCE_DIR) + "/tools/pages/" + std::string(path),
                     std::ios::binary);
    std::ostringstream kept;
    kept << in.rdbuf();
    EXPECT_FALSE(kept.str().empty()) << path;
    EXPECT_TRUE(page_file(path) == kept.str()) << path;
  }
}

}  // namespace
}  // namespace dullcast::page_maker
